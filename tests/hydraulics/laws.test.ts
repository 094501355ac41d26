import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Line,
  lineOf,
  lossBetweenPa,
  type OpenTaps,
  pumpOutletPa,
  type Solution,
  solveLine,
} from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { randomTrial } from '../outside/epanet/random-plants.ts';
import { seeded } from '../seeded.ts';

const SEED = 4711;
const RUNS = { seed: SEED, numRuns: 400 };
const anyPlant = fc.integer({ min: 0, max: 2 ** 31 - 1 }).map((number) => {
  const { plant, open } = randomTrial(seeded(number));
  return { line: lineOf(resolvePlant(parsePlant(plant)).plant), open };
});

const columnPa = (line: Line, m: number) => line.water.densityKgM3 * 9.80665 * m;

/** Pressures brought to height 0, by part, from the pump (or the first part behind the source) on. */
function levelled(line: Line, solution: Solution): number[] {
  const heights = new Map(line.elements.map((element) => [element.id, element.heightM]));
  if (line.pump) heights.set(line.pump.id, line.pump.heightM);
  heights.set(line.house.id, line.house.heightM);
  return solution.points
    .filter((point) => heights.has(point.after))
    .map((point) => point.pa + columnPa(line, heights.get(point.after) ?? 0));
}

describe(`laws of the solved line (seed ${SEED})`, () => {
  it('flow never rises when anything behind the pump resists more', () => {
    fc.assert(
      fc.property(
        anyPlant,
        fc.nat(40),
        fc.double({ min: 1, max: 1e4, noNaN: true }),
        ({ line, open }, place, factor) => {
          const before = solveLine(line, open).flowM3s;
          for (const worse of worseLines(line, place, factor)) {
            expect(solveLine(worse, open).flowM3s).toBeLessThanOrEqual(before * (1 + 1e-7));
          }
        },
      ),
      RUNS,
    );
  });

  it('flow of a running pump never rises when the suction resists more', () => {
    fc.assert(
      fc.property(anyPlant, fc.double({ min: 0, max: 1e12, noNaN: true }), ({ line, open }, k) => {
        // A cycling plant is told at the mean of start and stop: one that ceases to cycle is told at another pressure.
        const running: Line = { ...line, control: { kind: 'none' } };
        const before = solveLine(running, open).flowM3s;
        const after = solveLine({ ...running, extraSuctionLossK: k }, open).flowM3s;
        expect(after).toBeLessThanOrEqual(before * (1 + 1e-7));
      }),
      RUNS,
    );
  });

  it('flow never rises when a steady pump wears', () => {
    fc.assert(
      fc.property(
        anyPlant,
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        ({ line, open }, share) => {
          if (!line.pump) return;
          const running: Line = { ...line, control: { kind: 'none' } };
          const before = solveLine(running, open).flowM3s;
          for (const wear of [{ headFactor: share }, { flowFactor: share }]) {
            const worn: Line = { ...running, pump: { ...line.pump, ...wear } };
            expect(solveLine(worn, open).flowM3s).toBeLessThanOrEqual(before * (1 + 1e-7));
          }
        },
      ),
      RUNS,
    );
  });

  it('pressure falls along the line but for the pump and for height', () => {
    fc.assert(
      fc.property(anyPlant, ({ line, open }) => {
        const levels = levelled(line, solveLine(line, open));
        levels.slice(1).forEach((pa, i) => {
          expect(pa).toBeLessThanOrEqual((levels[i] ?? 0) + 1e-3);
        });
      }),
      RUNS,
    );
  });

  it('what flows is what the open outlets pass at the pressure that arrives', () => {
    fc.assert(
      fc.property(anyPlant, fc.integer({ min: 1, max: 6 }), ({ line }, open) => {
        const { flowM3s, points } = solveLine(line, { open });
        const arriving = points.at(-1)?.pa ?? 0;
        expect(flowM3s).toBeCloseTo(open * line.house.tap.k * Math.sqrt(Math.max(0, arriving)), 9);
      }),
      RUNS,
    );
  });

  it('at rest all gauges agree but for height, up to a pressure reducer', () => {
    fc.assert(
      fc.property(anyPlant, ({ line }) => {
        const solution = solveLine(line, 'closed');
        expect(solution.flowM3s).toBe(0);
        const reducer = line.elements.findIndex((element) => element.setPa !== null);
        const levels = levelled(line, solution);
        const same = reducer < 0 ? levels : levels.slice(0, reducer);
        for (const pa of same) expect(pa).toBeCloseTo(same[0] ?? 0, 4);
      }),
      RUNS,
    );
  });

  it('more open taps never give less water altogether, nor more pressure at the house', () => {
    fc.assert(
      fc.property(anyPlant, fc.integer({ min: 1, max: 5 }), ({ line }, open) => {
        const running: Line = { ...line, control: { kind: 'none' } };
        const fewer = solveLine(running, { open });
        const more = solveLine(running, { open: open + 1 });
        expect(more.flowM3s).toBeGreaterThanOrEqual(fewer.flowM3s * (1 - 1e-7));
        expect(more.points.at(-1)?.pa).toBeLessThanOrEqual((fewer.points.at(-1)?.pa ?? 0) + 1e-2);
      }),
      RUNS,
    );
  });

  it('the pump’s outlet pressure never rises with flow, and no stretch costs less at more flow', () => {
    const flows = Array.from({ length: 200 }, (_, i) => i * 1e-5);
    fc.assert(
      fc.property(anyPlant, ({ line }) => {
        flows.slice(1).forEach((flow, i) => {
          const less = flows[i] ?? 0;
          expect(pumpOutletPa(line, flow)).toBeLessThanOrEqual(pumpOutletPa(line, less) + 1e-6);
          const all = line.elements.length;
          expect(lossBetweenPa(line, 0, all, flow)).toBeGreaterThanOrEqual(
            lossBetweenPa(line, 0, all, less),
          );
        });
      }),
      { ...RUNS, numRuns: 100 },
    );
  });
});

describe(`absurd plants (seed ${SEED})`, () => {
  const absurd = fc.integer({ min: -9, max: 9 }).map((power) => 10 ** power);
  /** Where zero is allowed, anything above it is. */
  const tiny = fc.integer({ min: -300, max: 9 }).map((power) => 10 ** power);
  const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
  const part = fc.oneof(
    fc.record({ kind: fc.constant('valve'), open: maybe(fc.boolean()), heightM: maybe(absurd) }),
    fc.record({ kind: fc.constant('check-valve'), heightM: maybe(absurd) }),
    fc.record({ kind: fc.constant('pressure-reducer'), setBar: maybe(absurd) }),
    fc.record({ kind: fc.constant('vessel'), volumeL: maybe(absurd), prechargeBar: maybe(tiny) }),
    fc.record({
      kind: fc.constant('filter'),
      medium: fc.constantFrom('sediment', 'carbon', 'membrane', 'softener'),
      clean: maybe(fc.record({ flowLpm: absurd, dropBar: absurd })),
      heightM: maybe(absurd),
    }),
    fc.record({
      kind: fc.constant('mains'),
      changeover: maybe(fc.boolean()),
      pressureBar: maybe(absurd),
    }),
  );
  const control = fc.oneof(
    fc.record({ kind: fc.constant('pressure-switch'), cutOutBar: maybe(absurd) }),
    fc.record({
      kind: fc.constant('flow-controller'),
      startBar: maybe(tiny),
      minFlowLpm: maybe(tiny),
    }),
    fc.record({ kind: fc.constant('variable-speed'), setBar: maybe(absurd) }),
    fc.record({ kind: fc.constant('none') }),
  );
  const curve = fc
    .array(fc.record({ flowLpm: tiny, headM: tiny }), { minLength: 1, maxLength: 5 })
    .map((points) => {
      const flows = [...new Set(points.map((point) => point.flowLpm))].sort((a, b) => a - b);
      const heads = points.map((point) => point.headM).sort((a, b) => b - a);
      return flows.map((flowLpm, i) => ({ flowLpm, headM: heads[i] ?? 0 }));
    });
  const plant = fc.record({
    tank: maybe(fc.record({ levelM: maybe(tiny), outletHeightM: maybe(absurd) })),
    suction: maybe(
      fc.record({ lengthM: tiny, boreMm: absurd, roughnessMm: tiny, fittingsK: tiny }),
    ),
    pump: maybe(
      fc.record({
        heightM: maybe(absurd),
        curve: maybe(curve),
        npshRequired: maybe(curve.map((points) => points.slice(0, 1))),
        control: maybe(control),
      }),
    ),
    parts: fc.array(part, { maxLength: 6 }),
    house: fc.record({
      heightM: maybe(absurd),
      pipe: maybe(fc.record({ lengthM: tiny, boreMm: absurd, roughnessMm: tiny })),
      tap: maybe(fc.record({ flowLpm: absurd, atBar: absurd })),
      taps: fc.array(fc.record({ heightM: absurd, flowLpm: absurd, atBar: absurd }), {
        maxLength: 3,
      }),
    }),
  });

  it('are solved too: every number finite, no flow backwards, no exception, no endless loop', () => {
    fc.assert(
      fc.property(plant, fc.integer({ min: 0, max: 1000 }), (made, taps) => {
        const { line, named } = build(made);
        const states: OpenTaps[] = ['closed', { open: taps }, { open: named }];
        for (const open of states) {
          for (const tried of [line, broken(line)]) expectFinite(solveLine(tried, open));
        }
      }),
      { seed: SEED, numRuns: 2000 },
    );
  }, 60_000);

  function build(made: {
    tank: object | undefined;
    suction: object | undefined;
    pump: object | undefined;
    parts: object[];
    house: { taps: object[] };
  }) {
    const taps = made.house.taps.map((tap, i) => ({ ...tap, id: `tap-${i}` }));
    const raw = {
      name: 'absurd',
      line: [
        ...(made.tank ? [{ ...made.tank, id: 'tank', kind: 'tank' }] : []),
        ...(made.suction ? [{ ...made.suction, id: 'suction', kind: 'suction' }] : []),
        ...(made.pump ? [{ ...made.pump, id: 'pump', kind: 'pump' }] : []),
        ...made.parts.map((one, i) => ({ ...one, id: `part-${i}` })),
        { ...made.house, taps, id: 'house', kind: 'house' },
      ],
    };
    const parsed = parsePlant(JSON.parse(JSON.stringify(raw)));
    return { line: lineOf(resolvePlant(parsed).plant), named: taps.map((tap) => tap.id) };
  }

  /** Every fault at once, at its worst. */
  function broken(line: Line): Line {
    return {
      ...line,
      extraSuctionLossK: 1e18,
      pump: line.pump && { ...line.pump, headFactor: 1e-6, flowFactor: 1e-6 },
      elements: line.elements.map((element) => ({ ...element, linearFactor: 1e9, extraK: 1e20 })),
      bypasses: line.bypasses.map((bypass) => ({ ...bypass, open: true })),
      house: { ...line.house, lossFactor: 1e9, leakK: 1e-9 },
    };
  }

  function expectFinite(solution: Solution) {
    const { cycle, flowM3s, npshMarginM, points } = solution;
    const numbers = [flowM3s, npshMarginM ?? 0, ...points.map((point) => point.pa)];
    if (cycle) numbers.push(cycle.lowPa, cycle.highPa, cycle.onS, cycle.offS);
    expect(numbers.every(Number.isFinite)).toBe(true);
    expect(flowM3s).toBeGreaterThanOrEqual(0);
  }
});

/** The line with one part, or the house's pipe, resisting more. */
function worseLines(line: Line, place: number, factor: number): Line[] {
  const change = (
    apply: (element: Line['elements'][number]) => Line['elements'][number],
  ): Line => ({
    ...line,
    elements: line.elements.map((element, i) =>
      i === place % line.elements.length ? apply(element) : element,
    ),
  });
  return [
    change((element) => ({ ...element, linearFactor: factor })),
    change((element) => ({ ...element, quadraticFactor: factor })),
    change((element) => ({ ...element, extraK: factor * 1e8 })),
    { ...line, house: { ...line.house, lossFactor: factor } },
  ];
}
