import { describe, expect, it } from 'vitest';
import { dropUncertaintyBar } from '../../shared/hydraulics/gauge.ts';
import { housePressureForPa, type Line, solveLine } from '../../shared/hydraulics/line.ts';
import { stageState } from '../../shared/hydraulics/loading.ts';
import { flowAtHeadM3s, headCurveOf, headM } from '../../shared/hydraulics/pump.ts';
import { fallingRoot, flowWhereSpent } from '../../shared/hydraulics/root.ts';
import { bucketFlow, kvFlowM3s } from '../../shared/hydraulics/tap.ts';
import { lpmToM3s } from '../../shared/hydraulics/units.ts';
import { waterAt } from '../../shared/hydraulics/water.ts';
import { columnPa, houseAt, line, pump, tank } from './parts.ts';

/** Where one thing hands over to another: expected values by hand from the law itself, named beside each. */

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

  it('a surplus that falls with the square of the flow is spent in two looks, a near one in three', () => {
    const square = (x: number) => 9 - x * x;
    const near = (x: number) => 9 - x * x - 0.3 * x;
    const find = (counted: (x: number) => number) => flowWhereSpent(counted, 10, 9, 2.8);
    expect(looksOf(find, square).root).toBeCloseTo(3, 8);
    expect(looksOf(find, square).looks).toBeLessThanOrEqual(2);
    expect(looksOf(find, near).root).toBeCloseTo((-0.3 + Math.sqrt(36.09)) / 2, 7);
    expect(looksOf(find, near).looks).toBeLessThanOrEqual(3);
  });

  it('a guess outside the bracket costs looks, not the root', () => {
    for (const guess of [-1, 0, 10, 50, Number.NaN])
      expect(flowWhereSpent((x) => 9 - x * x, 10, 9, guess)).toBeCloseTo(3, 6);
  });
});
