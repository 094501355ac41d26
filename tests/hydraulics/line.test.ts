import { describe, expect, it } from 'vitest';
import {
  housePressureForPa,
  type Line,
  lineOf,
  outletFlow,
  type Solution,
  solveLine,
} from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import type { Part } from '../../shared/plant/schema.ts';
import { columnPa, line, pump, switched, tank } from './parts.ts';

const tallTank: Part = { ...tank, outletHeightM: 20 };
const controlled = pump({ kind: 'flow-controller', startBar: 1.5, minFlowLpm: 1.5 });
const vessel: Part = { id: 'vessel', kind: 'vessel', volumeL: 24, prechargeBar: 1.8, heightM: 0 };
const house: Part = { id: 'house', kind: 'house', heightM: 0 };
const blocked: Part = {
  id: 'stage',
  kind: 'filter',
  medium: 'sediment',
  heightM: 0,
  clean: { flowLpm: 1, dropBar: 10 },
};

const barAt = (solution: Solution, id: string) =>
  (solution.points.find((point) => point.after === id)?.pa ?? Number.NaN) / 1e5;
const lpm = (solution: Solution) => solution.flowM3s * 60_000;
const columnBar = (m: number) => columnPa(m) / 1e5;

describe('a pressure switch', () => {
  it('rests at cut-out with all taps shut', () => {
    const solution = solveLine(line(tank, switched, vessel, house), 'closed');
    expect(solution).toMatchObject({ running: 'off', flowM3s: 0, cycle: null });
    expect(barAt(solution, 'pump')).toBeCloseTo(3.5, 9);
    expect(barAt(solution, 'house')).toBeCloseTo(3.5, 9);
  });

  it('cycles on one tap, told at the mean of start and stop, resting as long as its vessel lasts', () => {
    const made = line(tank, switched, vessel, house);
    const solution = solveLine(made, { open: 1 });
    expect(solution.running).toBe('cycling');
    expect(barAt(solution, 'pump')).toBeCloseTo(2.75, 9);
    expect(solution.cycle).toMatchObject({ lowPa: 2e5, highPa: 3.5e5 });
    const drawdownL = 24 * (2.81325 / 3.01325 - 2.81325 / 4.51325);
    expect(solution.cycle?.offS).toBeCloseTo(drawdownL / (lpm(solution) / 60), 6);
  });

  it('runs without stopping when more is open than it can lift to cut-out', () => {
    const solution = solveLine(line(tank, switched, vessel, house), { open: 6 });
    expect(solution.running).toBe('steady');
    expect(barAt(solution, 'pump')).toBeLessThan(3.5);
  });

  it('rests and starts within seconds where the vessel has lost its gas', () => {
    const made = line(tank, switched, vessel, house);
    const flat = { ...made, vessels: made.vessels.map((one) => ({ ...one, volumeM3: 1e-4 })) };
    expect(solveLine(flat, { open: 1 }).cycle?.offS).toBeLessThan(1);
    expect(solveLine(line(tank, switched, house), { open: 1 }).cycle?.offS).toBeLessThan(1);
  });

  it('never stops when it cannot reach cut-out', () => {
    const high = pump({ kind: 'pressure-switch', cutInBar: 2, cutOutBar: 6 });
    const solution = solveLine(line(tank, high, vessel, house), 'closed');
    expect(solution).toMatchObject({ running: 'steady', flowM3s: 0 });
    expect(barAt(solution, 'pump')).toBeCloseTo(columnBar(46), 3);
  });

  it('cycles on a leak with all taps shut', () => {
    const made = line(tank, switched, vessel, house);
    const leaking = { ...made, house: { ...made.house, leakK: 1e-8 } };
    const solution = solveLine(leaking, 'closed');
    expect(solution.running).toBe('cycling');
    expect(solution.cycle?.offS).toBeGreaterThan(600);
  });

  it('stays off while gravity holds its cut-in', () => {
    const solution = solveLine(line({ ...tallTank, outletHeightM: 40 }, switched, house), {
      open: 1,
    });
    expect(solution.running).toBe('off');
    expect(lpm(solution)).toBeGreaterThan(5);
  });
});

describe('a flow controller', () => {
  it('rests at shut-off head and level', () => {
    const solution = solveLine(line(tank, controlled, house), 'closed');
    expect(solution.running).toBe('off');
    expect(barAt(solution, 'pump')).toBeCloseTo(columnBar(46), 3);
  });

  it('runs steadily on a tap', () => {
    expect(solveLine(line(tank, controlled, house), { open: 1 }).running).toBe('steady');
  });

  it('starts and stops when a blocked stage lets less than its least flow pass', () => {
    const solution = solveLine(line(tank, controlled, blocked, house), { open: 1 });
    expect(solution.running).toBe('cycling');
    expect(lpm(solution)).toBeLessThan(1.5);
    expect(solution.cycle?.lowPa).toBe(1.5e5);
    expect(solution.cycle?.highPa).toBeCloseTo(columnBar(46) * 1e5, -3);
  });
});

describe('variable speed', () => {
  const speeded = pump({ kind: 'variable-speed', setBar: 3 });
  it.each([1, 2, 3])('holds its pressure with %d taps open', (open) => {
    const solution = solveLine(line(tank, speeded, house), { open });
    expect(solution.running).toBe('steady');
    expect(barAt(solution, 'pump')).toBeCloseTo(3, 9);
  });

  it('falls below it when more is open than it can feed', () => {
    const solution = solveLine(line(tank, speeded, house), { open: 12 });
    expect(solution.running).toBe('steady');
    expect(barAt(solution, 'pump')).toBeLessThan(3);
  });

  it('rests at it with all taps shut', () => {
    const solution = solveLine(line(tank, speeded, house), 'closed');
    expect(solution.running).toBe('off');
    expect(barAt(solution, 'pump')).toBeCloseTo(3, 9);
  });
});

describe('without control, pump or drive', () => {
  it('a pump without control rests at its shut-off head', () => {
    const solution = solveLine(line(tank, pump({ kind: 'none' }), house), 'closed');
    expect(solution).toMatchObject({ running: 'off', flowM3s: 0 });
    expect(barAt(solution, 'house')).toBeCloseTo(columnBar(46), 3);
  });

  it('gravity flows, and rests at the water’s level', () => {
    const made = line(tallTank, house);
    expect(solveLine(made, { open: 1 }).running).toBe('steady');
    expect(barAt(solveLine(made, 'closed'), 'house')).toBeCloseTo(columnBar(21), 3);
  });

  it('a pump that gives nothing leaves what gravity gives', () => {
    const made = line(tallTank, switched, house);
    const dead: Line = { ...made, pump: made.pump && { ...made.pump, drive: false } };
    const byGravity = solveLine(line(tallTank, house), { open: 1 });
    expect(lpm(solveLine(dead, { open: 1 }))).toBeCloseTo(lpm(byGravity), 6);
  });

  it('a mains back-up takes over by itself only where it is made to', () => {
    for (const changeover of ['automatic', 'manual'] as const) {
      const mains: Part = { id: 'mains', kind: 'mains', changeover, pressureBar: 4, heightM: 0 };
      const made = line(tank, controlled, mains, house);
      const dead: Line = { ...made, pump: made.pump && { ...made.pump, drive: false } };
      expect(barAt(solveLine(made, { open: 1 }), 'mains')).not.toBeCloseTo(4, 2);
      const solution = solveLine(dead, { open: 1 });
      expect(barAt(solution, 'mains')).toBeCloseTo(changeover === 'automatic' ? 4 : 0.1, 1);
      expect(solution.points.map((point) => point.after)).toEqual([
        'tank',
        'pump',
        'mains',
        'house',
      ]);
    }
  });

  it('mains alone are a source too', () => {
    const mains: Part = { id: 'mains', kind: 'mains', pressureBar: 3, heightM: 0 };
    expect(barAt(solveLine(line(mains, house), 'closed'), 'house')).toBeCloseTo(3, 9);
  });
});

describe('parts of the line', () => {
  it('a shut valve lets nothing through, and the pressure behind it is gone', () => {
    const valve: Part = { id: 'v', kind: 'valve', open: false };
    const solution = solveLine(line(tank, switched, vessel, valve, house), { open: 1 });
    expect(solution.running).toBe('off');
    expect(lpm(solution)).toBeLessThan(1e-4);
    expect(barAt(solution, 'pump')).toBeCloseTo(3.5, 6);
    expect(barAt(solution, 'house')).toBeLessThan(0.01);
  });

  it('a pressure reducer lets its setting through and no more', () => {
    const reducer: Part = { id: 'r', kind: 'pressure-reducer', setBar: 1.5, heightM: 0 };
    const wide: Part = { ...house, kind: 'house', pipe: { boreMm: 50 } };
    const made = line(tank, pump({ kind: 'none' }), reducer, wide);
    expect(barAt(solveLine(made, 'closed'), 'house')).toBeCloseTo(1.5, 9);
    expect(barAt(solveLine(made, { open: 1 }), 'r')).toBeCloseTo(1.5, 9);
    expect(barAt(solveLine(made, { open: 12 }), 'r')).toBeLessThan(1.5);
  });

  it('an open bypass gives a blocked stage’s water back', () => {
    const round = (open: boolean): Part => ({ id: 'b', kind: 'bypass', around: ['stage'], open });
    const flow = (open: boolean) =>
      lpm(solveLine(line(tank, controlled, blocked, round(open), house), { open: 1 }));
    const without = lpm(solveLine(line(tank, controlled, house), { open: 1 }));
    expect(flow(false)).toBeLessThan(1.5);
    expect(flow(true) / without).toBeGreaterThan(0.98);
  });

  it('gauges, vessels, drains and relief valves cost nothing', () => {
    const tees: Part[] = [
      { id: 'g', kind: 'gauge' },
      { id: 'd', kind: 'drain' },
      { id: 'r', kind: 'relief-valve' },
      { id: 'p', kind: 'dosing-pump' },
    ];
    const bare = lpm(solveLine(line(tank, controlled, house), { open: 2 }));
    expect(lpm(solveLine(line(tank, controlled, ...tees, house), { open: 2 }))).toBe(bare);
  });

  it('a valve before the pump takes from its suction', () => {
    const valve: Part = { id: 'v', kind: 'valve', open: false };
    const solution = solveLine(line(tank, valve, controlled, house), { open: 1 });
    expect(lpm(solution)).toBeLessThan(0.01);
  });

  it('a suction that runs out of head collapses, and its margin says so', () => {
    const needy: Part = { ...controlled, npshRequired: [{ flowLpm: 20, headM: 4 }] } as Part;
    const made = line(tank, needy, house);
    const well = solveLine(made, { open: 2 });
    expect(well.npshMarginM).toBeGreaterThan(5);
    const starved = solveLine({ ...made, extraSuctionLossK: 3e12 }, { open: 2 });
    expect(starved.npshMarginM).toBeLessThan(0.5);
    expect(lpm(starved)).toBeLessThan(0.7 * lpm(well));
  });
});

describe('taps on several floors', () => {
  const floors: Part = {
    ...house,
    kind: 'house',
    heightM: 2,
    taps: [
      { id: 'low', heightM: 1, flowLpm: 12, atBar: 3 },
      { id: 'up', heightM: 6, flowLpm: 18, atBar: 3 },
      { id: 'roof', heightM: 60, flowLpm: 18, atBar: 3 },
    ],
  };
  const made = line(tank, pump({ kind: 'none' }), floors);

  it('a tap higher than the pressure reaches gives nothing and takes nothing', () => {
    expect(solveLine(made, { open: ['roof'] }).flowM3s).toBe(0);
    const both = solveLine(made, { open: ['low', 'roof'] });
    expect(both.flowM3s).toBeCloseTo(solveLine(made, { open: ['low'] }).flowM3s, 12);
  });

  it('each flows by the pressure at its own height', () => {
    const solution = solveLine(made, { open: ['low', 'up'] });
    const houseBar = barAt(solution, 'house');
    const k = (flow: number, m: number) =>
      (flow / Math.sqrt(3)) * Math.sqrt(houseBar - columnBar(m));
    expect(lpm(solution)).toBeCloseTo(k(12, -1) + k(18, 4), 5);
  });

  it('a blocked aerator takes from its own tap only', () => {
    const half = made.house.taps.map((tap) => (tap.id === 'up' ? { ...tap, kFactor: 0.5 } : tap));
    const clogged: Line = { ...made, house: { ...made.house, taps: half } };
    const share =
      lpm(solveLine(clogged, { open: ['up'] })) / lpm(solveLine(made, { open: ['up'] }));
    expect(share).toBeGreaterThan(0.5);
    expect(share).toBeLessThan(0.7);
    expect(solveLine(clogged, { open: ['low'] })).toEqual(solveLine(made, { open: ['low'] }));
  });

  it('the pressure needed for a flow and the flow at a pressure are each other’s inverse', () => {
    for (const open of [{ open: 2 }, { open: ['low', 'up'] }, { open: ['up'] }]) {
      for (const flow of [1e-5, 1e-4, 5e-4]) {
        expect(outletFlow(made, open, housePressureForPa(made, open, flow)) / flow).toBeCloseTo(
          1,
          6,
        );
      }
    }
  });
});

describe('Fernhollow', () => {
  it('names every part once, in order', () => {
    const solution = solveLine(lineOf(resolvePlant(fernhollow).plant), { open: 2 });
    expect(solution.points.map((point) => point.after)).toEqual(
      fernhollow.line.map((part) => part.id),
    );
  });

  it('knows what its house must have at once', () => {
    const { open, flowM3s } = lineOf(resolvePlant(fernhollow).plant).house.need;
    expect(open).toBe(2);
    expect(flowM3s).toBeCloseTo(14 / 60_000, 9);
  });
});
