import { describe, expect, it } from 'vitest';
import { lineOf, pumpFlowAtM3s, solveLine } from '../../shared/hydraulics/line.ts';
import { barToPa, paToBar } from '../../shared/hydraulics/units.ts';
import { drawdownM3, runAndRest } from '../../shared/hydraulics/vessel.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { dayNumber, dayOf } from '../../shared/upkeep/days.ts';
import { pumpWear } from '../../shared/upkeep/pump-wear.ts';
import { dayFallsTo, trendOf } from '../../shared/upkeep/trend.ts';
import { vesselGas } from '../../shared/upkeep/vessel-gas.ts';
import { seeded } from '../seeded.ts';
import { outlook, parsed, rules } from './tables.ts';
import { flowController, pressureSwitch } from './trials.ts';
import { normal, plantWith } from './virtual.ts';

const START = dayNumber('2024-01-01');
const horizonOf = (day: number) => day + 5 * 365;

/** Monthly readings of a pump that loses so much of its head a year. */
function wearRecord(lossPerYear: number, months: number, control: object, seed: number) {
  const random = seeded(seed);
  const plant = plantWith(control, 0.1, '2024-01-01');
  const clean = lineOf(resolvePlant(parsePlant(plant)).plant);
  const history: object[] = [];
  for (let month = 0; month < months; month++) {
    const headFactor = 1 - (lossPerYear * month) / 12;
    const line = { ...clean, pump: clean.pump && { ...clean.pump, headFactor } };
    const at = dayOf(START + month * 30.4);
    for (const open of [0, 3]) {
      const { points, flowM3s } = solveLine(line, open === 0 ? 'closed' : { open });
      const pa = points.find(({ after }) => after === 'G1')?.pa ?? 0;
      const G1 = Math.round((paToBar(pa) + 0.04) / 0.05) * 0.05;
      const flowLpm = flowM3s * 60_000 * (1 + 0.02 * normal(random));
      history.push(
        open === 0
          ? { at, taps: 'closed', bar: { G1 } }
          : { at, taps: { open }, bar: { G1 }, flowLpm },
      );
    }
  }
  return { plant, history };
}

describe('the pump over time', () => {
  it('shows its wear in per cent a year, and when it counts as worn, within the interval', () => {
    const upkeep = parsed(wearRecord(0.05, 24, flowController, 3));
    const wear = pumpWear(upkeep, rules, horizonOf(dayNumber(upkeep.today)));
    expect(wear?.perYear).toBeCloseTo(-0.05, 2);
    expect(Math.abs((wear?.headShare ?? 0) - 0.91)).toBeLessThan(2 * (wear?.u ?? 0));
    const truth = START + (0.15 / 0.05) * 365;
    expect(wear?.forecast?.from).toBeLessThan(truth);
    expect(wear?.forecast?.to).toBeGreaterThan(truth);
  });

  it('gets no date while it does not wear', () => {
    const upkeep = parsed(wearRecord(0, 24, flowController, 4));
    expect(pumpWear(upkeep, rules, horizonOf(dayNumber(upkeep.today)))?.forecast).toBeNull();
  });

  it('behind a switch is seen with the valve shut, and must reach cut-out: its limit is no lower than that', () => {
    const shut = Array.from({ length: 12 }, (_, month) => {
      // Head of 46 m less 5 % a year, the water's surface at 1.5 m, the gauge at 0.5 m.
      const bar = ((46 * (1 - (0.05 * month) / 12) + 1) * 9798) / 1e5;
      return { at: dayOf(START + month * 30.4), question: 'shut-off', value: { bar } };
    });
    const of = (control: object) => {
      const upkeep = parsed({ plant: plantWith(control, 0.1, '2024-01-01'), history: shut });
      return pumpWear(upkeep, rules, horizonOf(dayNumber(upkeep.today)));
    };
    // 3.5 bar are 35.7 m, at the pump's 0.3 m and with 1.5 m of level: 34.5 m of 46 m, so 85 % counts first.
    expect(of(pressureSwitch)?.limitShare).toBe(0.85);
    expect(of(pressureSwitch)?.perYear).toBeCloseTo(-0.05, 3);
    const strained = of({ ...pressureSwitch, cutOutBar: 4.2 });
    expect(strained?.limitShare).toBeCloseTo((42.87 + 0.3 - 1.5) / 46, 2);
    expect(strained?.forecast?.on).toBeLessThan(of(pressureSwitch)?.forecast?.on ?? 0);
  });
});

describe('the vessel over time', () => {
  const plant = plantWith(pressureSwitch, 0.1, '2026-01-05');
  const line = lineOf(resolvePlant(parsePlant(plant)).plant);
  /** run and rest with 8 L/min drawn, at a precharge */
  const times = (prechargeBar: number) => {
    const [low, high] = [barToPa(2), barToPa(3.5)];
    const vessel = { volumeM3: 0.024, prechargePa: barToPa(prechargeBar) };
    const drawdown = drawdownM3(vessel, low, high, line.airPa);
    const flow = pumpFlowAtM3s(line, (low + high) / 2);
    return runAndRest(drawdown, flow, 8 / 60_000);
  };
  const history = Array.from({ length: 8 }, (_, month) => ({
    at: dayOf(dayNumber('2026-01-05') + month * 30.4),
    question: 'cycle-times',
    value: { ...times(1.8 - 0.02 * month), taps: 'open' },
  }));

  it('shows the charge that run and rest times tell of, and what it loses in a month', () => {
    const upkeep = parsed({ plant, history });
    const gas = vesselGas(upkeep, rules, horizonOf(dayNumber(upkeep.today)));
    expect(gas?.prechargeBar).toBeCloseTo(1.66, 2);
    expect(gas?.lostPerMonthBar).toBeCloseTo(0.02, 3);
    expect(gas?.limitBar).toBeCloseTo(1.5, 9);
  });

  it('starts anew when the charge is set, and has its check in the due list', () => {
    const done = [{ at: '2026-08-20', job: 'set-precharge' }];
    const { vessel, due } = outlook({ plant, history, done, today: '2026-09-01' });
    expect(vessel).toBeNull();
    expect(due.find(({ part }) => part === 'vessel')?.on).toBe('2027-08-20');
  });
});

describe('a straight trend', () => {
  it('reaches a level on the day of the exact line when readings are exact', () => {
    const readings = [0, 10, 20, 30].map((day) => ({ day, value: 10 - 0.1 * day, u: 1e-6 }));
    const forecast = dayFallsTo(trendOf(readings)!, 4, 0, 1000);
    expect(forecast?.on).toBeCloseTo(60, 2);
  });

  it('holds the true day in its 80 % interval about 8 times in 10 (seed 2, 300 runs)', () => {
    const random = seeded(2);
    let held = 0;
    for (let run = 0; run < 300; run++) {
      const readings = Array.from({ length: 8 }, (_, i) => ({
        ...{ day: 30 * i, value: 10 - 0.01 * 30 * i + 0.2 * normal(random), u: 0.2 },
      }));
      const forecast = dayFallsTo(trendOf(readings)!, 6, 0, 1e5);
      if (forecast && forecast.from <= 400 && 400 <= forecast.to) held += 1;
    }
    expect(held / 300).toBeGreaterThan(0.72);
    expect(held / 300).toBeLessThan(0.93);
  });
});
