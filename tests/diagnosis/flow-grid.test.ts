import { describe, expect, it } from 'vitest';
import { curvesOf, houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { flowChances } from '../../shared/diagnosis/unread-state.ts';
import type { Line } from '../../shared/hydraulics/line/types.ts';
import {
  housePressureForPa,
  lineOf,
  lossBetweenPa,
  pumpInletPa,
  pumpOutletPa,
  solveLine,
} from '../../shared/hydraulics/line.ts';
import { lpmToM3s, m3sToLpm } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';

/** The clean plant on a grid of flows, against the solved line at each of these flows. */
const curve = [
  { flowLpm: 0, headM: 45 },
  { flowLpm: 33, headM: 34 },
  { flowLpm: 60, headM: 12 },
];
const pumpOf = (differs: object) => ({ id: 'pump', kind: 'pump', heightM: 0.5, curve, ...differs });
const free = { control: { kind: 'none' } };
const pipe = { lengthM: 12, boreMm: 20, roughnessMm: 0.01, fittingsK: 5 };
const house = { id: 'house', kind: 'house', heightM: 3, pipe };
const middle = [
  { id: 'G1', kind: 'gauge' },
  {
    ...{ id: 'sed', kind: 'filter', medium: 'sediment' },
    clean: { flowLpm: 20, dropBar: 0.1, linearShare: 0.8 },
  },
  { id: 'valve', kind: 'valve' },
  { id: 'carbon', kind: 'filter', medium: 'carbon' },
  { id: 'uv', kind: 'uv' },
];
const built = (pump: object, parts: object[] = middle, end: object = house, wide = {}) => {
  const { plant, assumed } = resolvePlant(
    parsePlant({
      name: 'grid',
      waterTempC: 15,
      line: [
        { id: 'tank', kind: 'tank', levelM: 1, outletHeightM: 1 },
        { id: 'suction', kind: 'suction', lengthM: 3, ...wide },
        pumpOf(pump),
        ...parts,
        end,
      ],
    }),
  );
  const line = lineOf(plant);
  return { plant, assumed, line, curves: curvesOf(line, plant, assumed) };
};
type Built = ReturnType<typeof built>;
const known = built(free);
const at = ({ plant }: Built, id: string) => plant.line.findIndex((part) => part.id === id);
const partOf = (made: Built, id: string) => made.curves.parts[at(made, id)] ?? null;
/** What one element takes at each flow of the grid, bar; `line` changed beforehand. */
const lossAlong = ({ curves, line: clean }: Built, id: string, line: Line = clean) => {
  const i = clean.elements.findIndex((element) => element.id === id);
  return [...curves.lpm].map((q) => lossBetweenPa(line, i, i + 1, lpmToM3s(q)) / 1e5);
};
const close = (ours: Float64Array | undefined, theirs: readonly number[], digits = 9) =>
  expect([...(ours ?? [])]).toEqual(theirs.map((value) => expect.closeTo(value, digits)));

describe('the grid', () => {
  it('is no flow and 31 more from 0.08 L/min, each the same factor above the one before', () => {
    const { lpm, step } = known.curves;
    expect(lpm).toHaveLength(32);
    expect(lpm[0]).toBe(0);
    expect(lpm[1]).toBeCloseTo(0.08, 12);
    for (let j = 2; j < 32; j++)
      expect(Math.log((lpm[j] ?? 0) / (lpm[j - 1] ?? 0))).toBeCloseTo(step, 12);
  });

  it('ends where the pump’s pressure has fallen to next to nothing, or at half a cubic metre a minute', () => {
    const outletAt = (q: number) => pumpOutletPa(known.line, lpmToM3s(q));
    const last = known.curves.lpm.at(-1) ?? 0;
    expect(last).toBeGreaterThan(20);
    expect(outletAt(last)).toBeLessThanOrEqual(5000);
    expect(outletAt(last / 1.2)).toBeGreaterThan(5000);
    const strong = curve.map(({ flowLpm, headM }) => ({ flowLpm: 300 * flowLpm, headM }));
    // 20 × 1.2ⁿ: the first above 500
    const { lpm } = built({ ...free, curve: strong }, middle, house, { boreMm: 200 }).curves;
    expect(lpm.at(-1)).toBeCloseTo(20 * 1.2 ** 18, 6);
  });
});

describe('what stands before the first part', () => {
  it('is the pump’s outlet and inlet at each flow, the tank alone, and what the house needs', () => {
    const { curves, line } = known;
    close(
      curves.source,
      [...curves.lpm].map((q) => pumpOutletPa(line, lpmToM3s(q)) / 1e5),
    );
    close(
      curves.inletBar,
      [...curves.lpm].map((q) => pumpInletPa(line, lpmToM3s(q)) / 1e5),
    );
    // one metre of water over an outlet half a metre above the pump
    expect(curves.gravityBar).toBeCloseTo((1.5 * 9.80665 * line.water.densityKgM3) / 1e5, 6);
    expect(curves.needLpm).toBeCloseTo(m3sToLpm(line.house.need.flowM3s), 9);
    expect(curves.datumM).toBe(0.5);
  });

  it('is known to a few per cent with a curve, to a tenth without', () => {
    const bar = (made: Built, j: number) => Math.abs(made.curves.source[j] ?? 0);
    for (const j of [0, 20]) {
      expect(known.curves.sourceSd[j]).toBeCloseTo(0.05 + 0.03 * bar(known, j), 12);
      const guessed = built({ ...free, curve: undefined });
      expect(guessed.curves.sourceSd[j]).toBeCloseTo(0.05 + 0.1 * bar(guessed, j), 12);
    }
  });
});

describe('what a part takes', () => {
  it('is its loss in the line at each flow, and what of it grows with the flow alone', () => {
    for (const id of ['sed', 'valve', 'carbon', 'uv']) {
      close(partOf(known, id)?.lossBar, lossAlong(known, id));
      const twice: Line = {
        ...known.line,
        elements: known.line.elements.map((e) => (e.id === id ? { ...e, linearFactor: 2 } : e)),
      };
      const linear = lossAlong(known, id, twice).map(
        (bar, j) => bar - (lossAlong(known, id)[j] ?? 0),
      );
      close(partOf(known, id)?.linearBar, linear);
    }
    expect(partOf(known, 'sed')?.linearBar[20]).toBeGreaterThan(0);
    for (const id of ['tank', 'suction', 'pump', 'G1', 'house'])
      expect(partOf(known, id), id).toBeNull();
  });

  it('is known by its data sheet, else by guess; cartridges load', () => {
    const told = (id: string) => [partOf(known, id)?.spread, partOf(known, id)?.loads];
    expect(told('sed')).toEqual([0.15, true]);
    expect(told('carbon')).toEqual([0.4, true]);
    expect(told('valve')?.[1]).toBe(false);
    expect(told('uv')?.[1]).toBe(false);
  });
});

describe('a pressure reducer', () => {
  // 1.2 m above the pump
  const reducer = { id: 'prv', kind: 'pressure-reducer', setBar: 1.8, heightM: 1.7 };
  const made = (differs: object) => built(free, [middle[1] ?? {}, { ...reducer, ...differs }]);

  it('holds its set pressure at its own height, whatever stands before it', () => {
    const { curves } = made({});
    expect(curves.reducers).toMatchObject([{ at: 4, sd: 0.15 }]);
    expect(curves.reducers[0]?.setBar).toBeCloseTo(1.8 + 1.2 * 0.0979, 12);
    expect(Math.max(...(curves.parts[4]?.lossBar ?? [0]))).toBe(0);
  });

  it('may be 0.3 bar off where nobody told its set pressure', () => {
    const { curves } = made({ setBar: undefined });
    expect(curves.reducers[0]?.sd).toBeCloseTo(Math.hypot(0.15, 0.3 / Math.sqrt(3)), 12);
  });

  it('leaves the taps what the solved line says they get', () => {
    const { curves, line, assumed } = made({});
    const flow = m3sToLpm(solveLine(line, { open: 1 }).flowM3s);
    const house = houseCurve(line, curves, { open: 1 }, assumed);
    const source = { raw: curves.source, sd: curves.sourceSd, cycling: curves.lpm.map(() => 0) };
    const chances = flowChances({ curves, house }, { ...source, control: 'none' } as never, [], 1);
    const mean = chances.reduce((sum, share, j) => sum + share * Math.log(curves.lpm[j] || 1), 0);
    // within a tenth of a step of the grid
    expect(Math.abs(mean - Math.log(flow))).toBeLessThan(curves.step / 10);
  });
});

describe('what the house needs', () => {
  const { line, curves, assumed } = known;
  it.each([[{ open: 1 }], [{ open: 3 }]])('with taps %j is the solver’s', (taps) => {
    const need = houseCurve(line, curves, taps, assumed);
    // 2.5 m from the pump up to the house
    const lift = (2.5 * 9.80665 * line.water.densityKgM3) / 1e5;
    expect(need.staticBar).toBeCloseTo(lift, 9);
    curves.lpm.forEach((q, j) => {
      if (q === 0) return;
      const whole = (need.pipeBar[j] ?? 0) + (need.tapBar[j] ?? 0) + need.staticBar;
      expect(whole).toBeCloseTo(housePressureForPa(line, taps, lpmToM3s(q)) / 1e5 + lift, 9);
    });
    expect([need.pipeBar[0], need.tapBar[0]]).toEqual([0, 0]);
    expect(need.pipeBar[20]).toBeGreaterThan(0);
  });

  it('at a tap upstairs is its height more', () => {
    const upstairs = { ...house, taps: [{ id: 'bath', heightM: 6 }] };
    const made = built(free, middle, upstairs);
    const need = houseCurve(made.line, made.curves, { open: ['bath'] }, made.assumed);
    expect(need.staticBar).toBeCloseTo((5.5 * 9.80665 * line.water.densityKgM3) / 1e5, 6);
    expect(need.tapBar[0]).toBe(0);
  });

  it('is known as well as its taps and its pipe are', () => {
    const sds = (end: object, taps: Parameters<typeof houseCurve>[2] = { open: 1 }) => {
      const made = built(free, middle, end);
      const { sizeSd, pipeSpread } = houseCurve(made.line, made.curves, taps, made.assumed);
      return [sizeSd, pipeSpread];
    };
    const tap = { tap: { flowLpm: 10, atBar: 1 } };
    expect(sds({ ...house, ...tap })).toEqual([0.1, 0.1]);
    expect(sds(house)).toEqual([0.2, 0.1]);
    expect(sds({ id: 'house', kind: 'house', ...tap })).toEqual([0.1, 0.2]);
    // a tap opened by half may be nearly any size; its figures are those of one tap
    expect(sds(house, 'part-open')).toEqual([1.2, 0.1]);
    const [half, one] = (['part-open', { open: 1 }] as const).map(
      (taps) => houseCurve(line, curves, taps, assumed).tapBar,
    );
    expect([...(half ?? [])]).toEqual([...(one ?? [])]);
  });
});
