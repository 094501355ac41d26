import { describe, expect, it } from 'vitest';
import { flowBesideBypass } from '../../shared/hydraulics/line/losses.ts';
import {
  type Line,
  lossBetweenPa,
  pumpFlowAtM3s,
  pumpOutletPa,
  type Solution,
  solveLine,
} from '../../shared/hydraulics/line.ts';
import { waterAt } from '../../shared/hydraulics/water.ts';
import type { Part } from '../../shared/plant/schema.ts';
import { columnPa, houseAt, line, pump, switched, tank } from './parts.ts';

/** Where one thing hands over to another: expected values by hand from the law itself, named beside each. */
const tankAt = (outletHeightM: number): Part => ({ ...tank, outletHeightM }) as Part;
const vesselAt = (heightM: number): Part => ({
  ...{ id: 'vessel', kind: 'vessel', volumeL: 24, prechargeBar: 1.8, heightM },
});
const house = houseAt(0);
const paAt = (solution: Solution, id: string) =>
  solution.points.find((point) => point.after === id)?.pa ?? Number.NaN;

describe('a stopped pump and the height it feeds', () => {
  // Common practice: with the tap higher than cut-in reaches, the switch never closes again.
  const high = line(tank, switched, vesselAt(0), houseAt(24));

  it('never starts again where its cut-in pressure does not reach the open tap; the column stands', () => {
    const solution = solveLine(high, { open: 1 });
    expect(solution).toMatchObject({ running: 'off', flowM3s: 0, cycle: null });
    expect(paAt(solution, 'pump') / columnPa(24)).toBeCloseTo(1, 5);
    expect(paAt(solution, 'house')).toBeCloseTo(0, 0);
  });

  it('rests at cut-out where not even that reaches the tap', () => {
    const solution = solveLine(line(tank, switched, vesselAt(0), houseAt(40)), { open: 1 });
    expect(solution).toMatchObject({ running: 'off', flowM3s: 0 });
    expect(paAt(solution, 'pump')).toBeCloseTo(3.5e5, 3);
  });

  it('cycles where it does', () => {
    const solution = solveLine(line(tank, switched, vesselAt(0), houseAt(15)), { open: 1 });
    expect(solution.running).toBe('cycling');
    expect(paAt(solution, 'house')).toBeGreaterThan(0);
  });
});

describe('gravity before the pump', () => {
  // 21 m of water hold 2.06 bar, just over cut-in, while nothing flows.
  const made = line(tankAt(20), switched, vesselAt(0), house);
  const needy: Line = { ...made, extraSuctionLossK: 2e12 };

  it('keeps the pump off while nothing flows, and no longer once its own loss takes it under cut-in', () => {
    expect(solveLine(needy, 'closed').running).toBe('off');
    expect(paAt(solveLine(needy, 'closed'), 'pump') / columnPa(21)).toBeCloseTo(1, 5);
    expect(solveLine(needy, { open: 1 }).running).not.toBe('off');
  });

  it.each([
    ['a flow controller', pump({ kind: 'flow-controller', startBar: 2, minFlowLpm: 1 })],
    ['variable speed', pump({ kind: 'variable-speed', setBar: 2 })],
  ])('keeps %s off too', (_, controlled) => {
    const solution = solveLine(line(tankAt(30), controlled, house), { open: 1 });
    expect(solution.running).toBe('off');
    expect(solution.flowM3s).toBeGreaterThan(0);
    expect(solution.flowM3s).toBeCloseTo(
      solveLine(line(tankAt(30), house), { open: 1 }).flowM3s,
      9,
    );
  });
});

describe('a cycle', () => {
  it('balances: what the pump gives while it runs is what is drawn while it runs and rests', () => {
    const made = line(tank, switched, vesselAt(0), house);
    const { cycle, flowM3s } = solveLine(made, { open: 1 });
    const { onS, offS } = cycle ?? { onS: 0, offS: 0 };
    expect(onS).toBeGreaterThan(0);
    const given = pumpFlowAtM3s(made, 2.75e5) * onS;
    expect(given / (flowM3s * (onS + offS))).toBeCloseTo(1, 9);
  });

  it('draws on a vessel by the pressures at its own height (Boyle)', () => {
    const { cycle, flowM3s, points } = solveLine(line(tank, switched, vesselAt(1.5), house), {
      open: 1,
    });
    expect(points.map(({ after }) => after)).toEqual(['tank', 'pump', 'vessel', 'house']);
    const gas = (pa: number) => (1.8e5 + 101_325) / (pa - columnPa(1.5) + 101_325);
    // at its height the pressure falls to the precharge's 1.85 bar and no further
    const drawdown = 0.024 * (gas(2e5) - gas(3.5e5));
    expect(((cycle?.offS ?? 0) * flowM3s) / drawdown).toBeCloseTo(1, 5);
  });

  it('of two vessels draws on both', () => {
    const twin: Part = { ...vesselAt(0), id: 'second' } as Part;
    const one = solveLine(line(tank, switched, vesselAt(0), house), { open: 1 }).cycle;
    const two = solveLine(line(tank, switched, vesselAt(0), twin, house), { open: 1 }).cycle;
    expect((two?.offS ?? 0) / (one?.offS ?? 1)).toBeCloseTo(2, 9);
    expect((two?.onS ?? 0) / (one?.onS ?? 1)).toBeCloseTo(2, 9);
  });
});

describe('a running pump', () => {
  it.each([1e5, 2e5, 3e5])('gives at %d Pa the flow at which it has just that pressure', (pa) => {
    const worn = line(tank, pump({ kind: 'none' }), house);
    for (const [headFactor, flowFactor, extraSuctionLossK] of [
      [1, 1, 0],
      [0.8, 0.6, 0],
      [1, 1, 1e11],
    ] as const) {
      const bad = worn.pump && { ...worn.pump, headFactor, flowFactor };
      const made: Line = { ...worn, pump: bad, extraSuctionLossK };
      expect(pumpOutletPa(made, pumpFlowAtM3s(made, pa)) / pa).toBeCloseTo(1, 5);
    }
    expect(pumpFlowAtM3s(worn, columnPa(47))).toBe(0);
  });

  it('has as suction margin what air, vapour and level leave, less what its sheet asks (NPSH)', () => {
    const npshRequired = [
      { flowLpm: 10, headM: 2 },
      { flowLpm: 30, headM: 3 },
      { flowLpm: 50, headM: 5 },
    ];
    const made = line(tank, pump({ kind: 'none' }, { npshRequired }), house);
    const available = (101_325 - waterAt(20).vapourPa) / columnPa(1) + 1;
    const rest = solveLine(made, 'closed');
    // before the first point what the first says
    expect(rest.npshMarginM).toBeCloseTo(available - 2, 2);
    const flowing = solveLine(made, { open: 2 });
    const lpm = flowing.flowM3s * 60_000;
    expect(lpm).toBeGreaterThan(10);
    expect(lpm).toBeLessThan(30);
    expect(flowing.npshMarginM).toBeCloseTo(available - (2 + (lpm - 10) / 20), 2);
    expect(solveLine(line(tank, pump({ kind: 'none' }), house), 'closed').npshMarginM).toBeNull();
  });
});

describe('points of the line', () => {
  const stage = (id: string, heightM: number): Part => ({
    ...{ id, kind: 'filter', medium: 'sediment', heightM },
    ...{ clean: { flowLpm: 10, dropBar: 0.3 } },
  });

  it('tell the column between parts at rest, each at its own height', () => {
    const made = line(tank, pump({ kind: 'none' }), stage('a', 2), stage('b', -1), houseAt(5));
    const solution = solveLine(made, 'closed');
    for (const [id, heightM] of [
      ['a', 2],
      ['b', -1],
      ['house', 5],
    ] as const)
      expect((paAt(solution, 'pump') - paAt(solution, id)) / columnPa(heightM)).toBeCloseTo(1, 5);
  });

  it('differ along a level line by what stands between them', () => {
    const made = line(tank, pump({ kind: 'none' }), stage('a', 0), stage('b', 0), house);
    const solution = solveLine(made, { open: 1 });
    const drop = paAt(solution, 'pump') - paAt(solution, 'b');
    expect(lossBetweenPa(made, 0, 2, solution.flowM3s)).toBeCloseTo(drop, 6);
    const second = paAt(solution, 'a') - paAt(solution, 'b');
    expect(lossBetweenPa(made, 1, 2, solution.flowM3s)).toBeCloseTo(second, 6);
    expect(lossBetweenPa(made, 1, 1, solution.flowM3s)).toBe(0);
    expect(lossBetweenPa(made, 0, 9, solution.flowM3s)).toBeCloseTo(drop, 6);
  });

  it('before a mains back-up that took over tell the standing water of the tank', () => {
    const mains: Part = {
      id: 'mains',
      kind: 'mains',
      changeover: 'automatic',
      pressureBar: 4,
      heightM: 2,
    };
    const made = line(
      tankAt(3),
      pump({ kind: 'none' }),
      stage('a', 1),
      mains,
      stage('b', 0),
      house,
    );
    const dead: Line = { ...made, pump: made.pump && { ...made.pump, drive: false } };
    const solution = solveLine(dead, 'closed');
    expect(paAt(solution, 'pump') / columnPa(4)).toBeCloseTo(1, 5);
    expect(paAt(solution, 'a') / columnPa(3)).toBeCloseTo(1, 5);
    expect(paAt(solution, 'mains')).toBeCloseTo(4e5, 3);
    expect((paAt(solution, 'house') - 4e5) / columnPa(2)).toBeCloseTo(1, 5);
    expect(solveLine(dead, { open: 1 }).running).toBe('steady');
  });

  it('tell the tank’s standing water also where the mains stand next to the pump', () => {
    const mains: Part = {
      ...{ id: 'mains', kind: 'mains', changeover: 'automatic', pressureBar: 4, heightM: 0 },
    };
    const made = line(tankAt(3), pump({ kind: 'none' }), mains, house);
    const dead: Line = { ...made, pump: made.pump && { ...made.pump, drive: false } };
    expect(paAt(solveLine(dead, 'closed'), 'pump') / columnPa(4)).toBeCloseTo(1, 5);
    expect(paAt(solveLine(dead, 'closed'), 'mains')).toBeCloseTo(4e5, 3);
  });

  it('fall at an open valve with the square of the flow (Δp = K·ρv²/2)', () => {
    const made = line(tank, pump({ kind: 'none' }), { id: 'v', kind: 'valve' }, house);
    const loss = lossBetweenPa(made, 0, 1, 2e-4);
    expect(loss).toBeGreaterThan(0);
    expect(lossBetweenPa(made, 0, 1, 4e-4) / loss).toBeCloseTo(4, 9);
  });

  it('nothing goes through a stage or round it where nothing flows', () => {
    expect(flowBesideBypass(0, 1e11, 1e10, 0)).toBe(0);
  });

  it('keep the medium of a filter, and none of anything else', () => {
    const made = line(
      tank,
      pump({ kind: 'none' }),
      stage('a', 0),
      { id: 'v', kind: 'valve' },
      house,
    );
    expect(made.elements.map(({ medium }) => medium)).toEqual(['sediment', null]);
  });
});
