import { describe, expect, it } from 'vitest';
import { type Effect, effectsOf } from '../../shared/diagnosis/effects.ts';
import { curvesOf, houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { LOADING } from '../../shared/diagnosis/segment-loss.ts';
import { sourceOf } from '../../shared/diagnosis/source.ts';
import { flowChances, unreadWeights } from '../../shared/diagnosis/unread-state.ts';
import type { Line } from '../../shared/hydraulics/line/types.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';

/** Without a gauge the flow under a scenario is the solved line's: against solveLine on the same line with the same fault. */
const plantWith = (control: object, more: object[] = []) =>
  resolvePlant(
    parsePlant({
      name: 'unread',
      waterTempC: 15,
      line: [
        { id: 'tank', kind: 'tank', levelM: 1, outletHeightM: 0 },
        {
          ...{ id: 'pump', kind: 'pump', heightM: 0, control },
          curve: [
            { flowLpm: 0, headM: 45 },
            { flowLpm: 33, headM: 34 },
            { flowLpm: 60, headM: 12 },
          ],
        },
        ...more,
        { id: 'sed', kind: 'filter', medium: 'sediment', clean: { flowLpm: 20, dropBar: 0.1 } },
        { id: 'house', kind: 'house', heightM: 3, pipe: { lengthM: 12, boreMm: 20 } },
      ],
    }),
  );
const built = (control: object) => {
  const { plant, assumed } = plantWith(control);
  const line = lineOf(plant);
  const curves = curvesOf(line, plant, assumed);
  const source = (effects: readonly Effect[]) => sourceOf(plant, curves, line.airPa, 0.05, effects);
  const house = (open: number) => houseCurve(line, curves, { open }, assumed);
  return { plant, line, curves, source, house };
};
const none = { kind: 'none' };

type Made = ReturnType<typeof built>;
const effectsFor = ({ plant, line, curves }: Made, part: string, change: object) => {
  let id = 0;
  const table = { changes: [{ share: 1, ...change }], scale: 'log' };
  return effectsOf(
    { part, table } as never,
    plant,
    line,
    curves,
    () => 1,
    () => id++,
  );
};
/** exp of the mean of ln(flow) over the flows that run. */
const meanLpm = ({ curves }: Made, chances: Float64Array) => {
  const running = chances.reduce((sum, chance, j) => sum + (j > 0 ? chance : 0), 0);
  return Math.exp(
    chances.reduce((sum, c, j) => (j > 0 ? sum + c * Math.log(curves.lpm[j] ?? 1) : sum), 0) /
      running,
  );
};
const loadedBy = (line: Line, times: number): Line => ({
  ...line,
  elements: line.elements.map((e) => (e.id === 'sed' ? { ...e, linearFactor: times } : e)),
});

/** Chance of each flow with so many taps open. */
const flowsOf = (made: Made, open: number, effects: Effect[] = [], loaded = 1) =>
  flowChances(
    { curves: made.curves, house: made.house(open) },
    made.source(effects),
    effects,
    loaded,
  );
/** Within one part in twenty of what the line passes, which lies between two flows of the grid. */
const expectSolved = (made: Made, chances: Float64Array, line: Line, open: number) => {
  const solved = m3sToLpm(solveLine(line, { open }).flowM3s);
  expect(Math.abs(meanLpm(made, chances) / solved - 1)).toBeLessThan(0.05);
  return solved;
};

describe('the likeliest flow', () => {
  it.each([
    [1, 1],
    [2, 1],
    [4, 1],
    [2, 3.2],
    [2, 30],
  ])('with %d taps open and cartridges loaded %d times is the solved line’s', (open, loaded) => {
    const made = built(none);
    const chances = flowsOf(made, open, [], loaded);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
    expectSolved(made, chances, loadedBy(made.line, loaded), open);
  });

  it.each<[string, string, object, (line: Line) => Line]>([
    ['a blocked stage', 'sed', { linearTimes: 40 }, (line) => loadedBy(line, 40)],
    [
      'a worn pump',
      'pump',
      { headTimes: 0.6 },
      (line) => ({ ...line, pump: line.pump && { ...line.pump, headFactor: 0.6 } }),
    ],
  ])('with %s is that of the line with it', (_, part, change, faulty) => {
    const made = built(none);
    const chances = flowsOf(made, 2, effectsFor(made, part, change));
    expectSolved(made, chances, faulty(made.line), 2);
  });

  it('with a restricted house pipe or outlets is less', () => {
    const made = built(none);
    const flow = (change: object) =>
      meanLpm(made, flowsOf(made, 2, effectsFor(made, 'house', change)));
    const clean = flow({});
    // outlets of half the size, where the taps take nearly all: half the flow at the same pressure, a little more pressure
    expect(flow({ outletTimes: 0.5 }) / clean).toBeGreaterThan(0.5);
    expect(flow({ outletTimes: 0.5 }) / clean).toBeLessThan(0.62);
    expect(flow({ housePipeTimes: 50 })).toBeLessThan(0.8 * clean);
  });

  it('under a held pressure is that of the line held there', () => {
    const made = built({ kind: 'variable-speed', setBar: 2.5 });
    const solved = expectSolved(made, flowsOf(made, 1), made.line, 1);
    // a drive that runs full out gives more
    const stuck = { ...made.source([]), neverStops: true };
    const wild = flowChances({ curves: made.curves, house: made.house(1) }, stuck, [], 1);
    expect(meanLpm(made, wild)).toBeGreaterThan(1.15 * solved);
  });

  it('of a cycling pump is that between start and stop', () => {
    const made = built({ kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3 });
    expect(solveLine(made.line, { open: 1 }).cycle).not.toBeNull();
    const held = built({ kind: 'variable-speed', setBar: 2.5 });
    expectSolved(made, flowsOf(made, 1), held.line, 1);
  });

  it('is none where the pressure does not reach the taps', () => {
    const made = built(none);
    const dead = { ...made.source([]), raw: made.curves.lpm.map(() => 0.1) };
    const chances = flowChances({ curves: made.curves, house: made.house(1) }, dead, [], 1);
    expect(chances[0]).toBe(1);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBe(1);
  });
});

describe('the spread', () => {
  it('is wider for taps that are less well known and for a line that loses more', () => {
    const made = built(none);
    const house = made.house(2);
    const spread = (differs: object, loaded = 1) => {
      const chances = flowChances(
        { curves: made.curves, house: { ...house, ...differs } },
        made.source([]),
        [],
        loaded,
      );
      const mean = chances.reduce((sum, c, j) => sum + c * j, 0);
      return Math.sqrt(chances.reduce((sum, c, j) => sum + c * (j - mean) ** 2, 0));
    };
    expect(spread({ sizeSd: 0.6 })).toBeGreaterThan(1.5 * spread({}));
    expect(spread({}, 20)).not.toBeCloseTo(spread({}), 3);
  });
});

describe('weights without a reading', () => {
  const made = built(none);
  const house = made.house(2);
  const weights = unreadWeights({ curves: made.curves, house, sourceWith: made.source });
  const over = (effects: readonly Effect[]) => {
    const out = new Float64Array(made.curves.lpm.length);
    for (const { times, chance } of LOADING)
      flowChances({ curves: made.curves, house }, made.source(effects), effects, times).forEach(
        (share, j) => {
          out[j] = (out[j] ?? 0) + chance * share;
        },
      );
    return out;
  };
  const close = (ours: Float64Array, theirs: Float64Array) => {
    ours.forEach((share, j) => {
      expect(share).toBeCloseTo(theirs[j] ?? Number.NaN, 12);
    });
  };

  it('are the mean over what clean cartridges may have loaded', () => {
    close(weights([]), over([]));
    const [blocked] = effectsFor(made, 'sed', { linearTimes: 30 });
    if (!blocked) throw new Error('no effect');
    close(weights([blocked]), over([blocked]));
    close(weights([blocked]), over([blocked]));
    // what moves no water changes nothing, first or second
    const still = { ...blocked, id: 900, partLoss: null };
    close(weights([still]), over([]));
    close(weights([still, blocked]), over([blocked]));
    close(weights([blocked, still]), over([blocked]));
  });
});
