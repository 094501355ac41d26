import { describe, expect, it } from 'vitest';
import { dropUncertaintyBar } from '../../shared/hydraulics/gauge.ts';
import { flowBesideBypass } from '../../shared/hydraulics/line/losses.ts';
import {
  housePressureForPa,
  type Line,
  lineOf,
  lossBetweenPa,
  pumpFlowAtM3s,
  pumpOutletPa,
  type Solution,
  solveLine,
} from '../../shared/hydraulics/line.ts';
import { stageState } from '../../shared/hydraulics/loading.ts';
import { flowAtHeadM3s, headCurveOf, headM } from '../../shared/hydraulics/pump.ts';
import { fallingRoot, flowWhereSpent } from '../../shared/hydraulics/root.ts';
import { bucketFlow, kvFlowM3s } from '../../shared/hydraulics/tap.ts';
import { lpmToM3s } from '../../shared/hydraulics/units.ts';
import { waterAt } from '../../shared/hydraulics/water.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { type Part, parsePlant } from '../../shared/plant/schema.ts';
import { pump, switched, tank } from './parts.ts';

/** Where one thing hands over to another: expected values by hand from the law itself, named beside each. */
const tankAt = (outletHeightM: number): Part => ({ ...tank, outletHeightM }) as Part;
const vesselAt = (heightM: number): Part => ({
  ...{ id: 'vessel', kind: 'vessel', volumeL: 24, prechargeBar: 1.8, heightM },
});
const houseAt = (heightM: number, taps: object[] = []): Part =>
  ({ id: 'house', kind: 'house', heightM, ...(taps.length > 0 && { taps }) }) as Part;
const house = houseAt(0);
const line = (...parts: Part[]): Line =>
  lineOf(resolvePlant(parsePlant({ name: 'test', waterTempC: 20, line: [...parts] })).plant);
const paAt = (solution: Solution, id: string) =>
  solution.points.find((point) => point.after === id)?.pa ?? Number.NaN;
const columnPa = (m: number) => 998.204 * 9.80665 * m;

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

describe('taps at the house’s own height beside one above it', () => {
  const taps = [
    { id: 'level', heightM: 2, flowLpm: 12, atBar: 3 },
    { id: 'up', heightM: 6, flowLpm: 18, atBar: 3 },
    { id: 'down', heightM: 1, flowLpm: 18, atBar: 3 },
  ];
  const made = line(tank, pump({ kind: 'none' }), houseAt(2, taps));

  it('flow each by its own pressure, a leak as well', () => {
    const leaking: Line = { ...made, house: { ...made.house, leakK: 2e-7 } };
    const { flowM3s, points } = solveLine(leaking, { open: ['level', 'up'] });
    const pa = points.at(-1)?.pa ?? 0;
    const k = (lpm: number) => lpmToM3s(lpm) / Math.sqrt(3e5);
    const byHand = (k(12) + 2e-7) * Math.sqrt(pa) + k(18) * Math.sqrt(pa - columnPa(4));
    expect(flowM3s / byHand).toBeCloseTo(1, 5);
  });

  it('need the column of the lowest that is not clogged for good', () => {
    const taps = made.house.taps.map((tap) => (tap.id === 'down' ? { ...tap, kFactor: 0 } : tap));
    const clogged: Line = { ...made, house: { ...made.house, taps } };
    const least = housePressureForPa(clogged, { open: ['down', 'up'] }, 0);
    expect(least / columnPa(4)).toBeCloseTo(1, 5);
  });

  it('need at least the column up to the lowest of them before anything flows', () => {
    expect(housePressureForPa(made, { open: ['up'] }, 0) / columnPa(4)).toBeCloseTo(1, 5);
    expect(housePressureForPa(made, { open: ['up', 'level'] }, 0)).toBe(0);
    expect(housePressureForPa(made, { open: ['down'] }, 0)).toBe(0);
    expect(housePressureForPa(made, 'closed', 0)).toBe(0);
    expect(housePressureForPa(made, 'closed', 1e-4)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('what a reading is known to', () => {
  const gauge = { rangeBar: 6, classPercent: 1.6, divisionBar: 0.1 };
  const better = { rangeBar: 4, classPercent: 1, divisionBar: 0.05 };

  it('with offsets removed and nothing changed since, is what four readings are known to (JCGM 100:2008, 4.3.7)', () => {
    const how = { kind: 'offsets-removed' as const, closedBar: [3.1, 2.8] as const };
    const four = Math.sqrt((2 * 0.05 ** 2 + 2 * 0.025 ** 2) / 3);
    expect(dropUncertaintyBar([gauge, better], [3.1, 2.8], how)).toBeCloseTo(four, 12);
  });

  it('grows by each gauge’s gain with what it moved since', () => {
    const at = (open: [number, number]) =>
      dropUncertaintyBar([gauge, better], open, { kind: 'offsets-removed', closedBar: [3, 3] }) **
      2;
    // half the variance of class × range over √3, per bar of range
    const gain = (each: typeof gauge) => (each.classPercent / 100 / Math.sqrt(6)) ** 2;
    expect(at([1, 3]) - at([3, 3])).toBeCloseTo(4 * gain(gauge), 12);
    expect(at([3, 1]) - at([3, 3])).toBeCloseTo(4 * gain(better), 12);
  });

  it('of a stage’s drop, moves the reference drop by as much at another flow (first order)', () => {
    const clean = { linear: 4e7, quadratic: 1e11 };
    const of = (pa: number) =>
      stageState(clean, { pa, u: 3000 }, { m3s: 2e-4, u: 0 }, waterAt(8), 5e-4);
    const moved = of(53_000).referenceDropPa - of(50_000).referenceDropPa;
    expect(of(50_000).referenceDropU / moved).toBeCloseTo(1, 9);
  });

  it('of a bucket is its mark and the watch at start and stop', () => {
    const { m3s, u } = bucketFlow(10, 4);
    expect(m3s).toBeCloseTo(0.0025, 12);
    expect(u / m3s).toBeCloseTo(Math.sqrt((0.05 ** 2 + 2 * (0.5 / 4) ** 2) / 3), 12);
  });
});

describe('a valve of Kv', () => {
  it('passes less of a heavier liquid by the root of its density, and nothing without a drop (IEC 60534)', () => {
    expect(kvFlowM3s(2, 4e5, 1.21) / kvFlowM3s(2, 4e5)).toBeCloseTo(1 / 1.1, 12);
    expect(kvFlowM3s(2, -1)).toBe(0);
  });
});

describe('a head curve', () => {
  const points = (...pairs: [number, number][]) =>
    headCurveOf(pairs.map(([flowM3s, head]) => ({ flowM3s, headM: head })));

  it('that ends flat is straight between its points', () => {
    const curve = points([0, 45], [30, 33], [60, 33]);
    expect(headM(curve, 15)).toBeCloseTo(39, 12);
    expect(headM(curve, 50)).toBeCloseTo(33, 12);
  });

  it('of one point starts a third above it and falls with the square (one-point convention of EPANET’s manual)', () => {
    const curve = points([20, 30]);
    expect([headM(curve, 0), headM(curve, 20)]).toEqual([40, 30]);
    expect(headM(curve, 40)).toBeCloseTo(0, 9);
    expect(flowAtHeadM3s(curve, 37.5)).toBeCloseTo(10, 9);
  });

  it('gives no flow above its shut-off, and its largest at no head or less', () => {
    const curve = points([0, 40], [10, 30], [20, 10], [25, 0]);
    expect(flowAtHeadM3s(curve, 41)).toBe(0);
    expect(flowAtHeadM3s(curve, -3)).toBeCloseTo(25, 12);
    expect(flowAtHeadM3s(curve, 20)).toBeCloseTo(15, 12);
  });
});

describe('the root finders', () => {
  const looksOf = (find: (f: (x: number) => number) => number, f: (x: number) => number) => {
    let looks = 0;
    const root = find((x) => {
      looks++;
      return f(x);
    });
    return { looks, root };
  };

  it('give the low end of a function that is nothing everywhere', () => {
    expect(fallingRoot(() => 0, 1, 5)).toBe(1);
  });

  it.each([
    ['a parabola', (x: number) => 2 - x * x, Math.SQRT2],
    ['an exponential', (x: number) => 3 - Math.exp(x), Math.log(3)],
    ['a cube', (x: number) => 5 - x ** 3, Math.cbrt(5)],
  ])('see %s in a third of the looks that halving would need', (_, f, expected) => {
    // Halving 10 down to 1e-10 of it takes log2(1e10) = 33 looks.
    const { looks, root } = looksOf((counted) => fallingRoot(counted, 0, 10), f);
    expect(root).toBeCloseTo(expected, 8);
    expect(looks).toBeLessThan(14);
  });

  it('a surplus that falls with the square of the flow is spent in two looks, a near one in six', () => {
    const square = (x: number) => 9 - x * x;
    const near = (x: number) => 9 - x * x - 0.3 * x;
    const find = (counted: (x: number) => number) => flowWhereSpent(counted, 10, 9, 2.5);
    expect(looksOf(find, square).root).toBeCloseTo(3, 8);
    expect(looksOf(find, square).looks).toBeLessThanOrEqual(2);
    expect(looksOf(find, near).root).toBeCloseTo((-0.3 + Math.sqrt(36.09)) / 2, 7);
    expect(looksOf(find, near).looks).toBeLessThanOrEqual(6);
  });

  it('a guess outside the bracket costs looks, not the root', () => {
    for (const guess of [-1, 0, 10, 50, Number.NaN])
      expect(flowWhereSpent((x) => 9 - x * x, 10, 9, guess)).toBeCloseTo(3, 6);
  });
});
