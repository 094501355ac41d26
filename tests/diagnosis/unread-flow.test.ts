import { describe, expect, it } from 'vitest';
import { effectsOf } from '../../shared/diagnosis/effects.ts';
import { curvesOf, houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { LOADING } from '../../shared/diagnosis/open-state.ts';
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
  const source = (effects: Parameters<typeof sourceOf>[4]) =>
    sourceOf(plant, curves, line.airPa, 0.05, effects);
  const house = (open: number) => houseCurve(line, curves, { open }, assumed);
  return { plant, line, curves, source, house };
};
const none = { kind: 'none' };

type Made = ReturnType<typeof built>;
const effectsFor = ({ plant, line, curves }: Made, part: string, change: object) => {
  let id = 0;
  const table = { changes: [{ share: 1, ...change }], scale: 'log' };
  return effectsOf({ part, table } as never, plant, line, curves, 1, () => id++);
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

describe('the likeliest flow', () => {
  it.each([
    [1, 1],
    [2, 1],
    [4, 1],
    [2, 3.2],
    [2, 30],
  ])('with %d taps open and cartridges loaded %d times is the solved line’s', (open, loaded) => {
    const made = built(none);
    const chances = flowChances(
      { curves: made.curves, house: made.house(open) },
      made.source([]),
      [],
      loaded,
    );
    const solved = m3sToLpm(solveLine(loadedBy(made.line, loaded), { open }).flowM3s);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
    expect(Math.abs(meanLpm(made, chances) / solved - 1)).toBeLessThan(0.05);
  });

  it('with a blocked stage is that of the line with that stage blocked', () => {
    const made = built(none);
    const effects = effectsFor(made, 'sed', { linearTimes: 40 });
    const chances = flowChances(
      { curves: made.curves, house: made.house(2) },
      made.source(effects),
      effects,
      1,
    );
    const solved = m3sToLpm(solveLine(loadedBy(made.line, 40), { open: 2 }).flowM3s);
    expect(Math.abs(meanLpm(made, chances) / solved - 1)).toBeLessThan(0.05);
  });

  it('with a worn pump is that of the line with that pump', () => {
    const made = built(none);
    const effects = effectsFor(made, 'pump', { headTimes: 0.6 });
    const chances = flowChances(
      { curves: made.curves, house: made.house(2) },
      made.source(effects),
      effects,
      1,
    );
    const pump = made.line.pump && { ...made.line.pump, headFactor: 0.6 };
    const solved = m3sToLpm(solveLine({ ...made.line, pump }, { open: 2 }).flowM3s);
    expect(Math.abs(meanLpm(made, chances) / solved - 1)).toBeLessThan(0.05);
  });

  it('with a restricted house pipe or outlets is that of the line with these', () => {
    const made = built(none);
    const flow = (change: object) => {
      const effects = effectsFor(made, 'house', change);
      return meanLpm(
        made,
        flowChances({ curves: made.curves, house: made.house(2) }, made.source([]), effects, 1),
      );
    };
    const clean = flow({});
    // outlets of half the size, where the taps take nearly all: half the flow at the same pressure, a little more pressure
    expect(flow({ outletTimes: 0.5 }) / clean).toBeGreaterThan(0.5);
    expect(flow({ outletTimes: 0.5 }) / clean).toBeLessThan(0.62);
    expect(flow({ housePipeTimes: 50 })).toBeLessThan(0.8 * clean);
  });

  it('under a held pressure is that of the line held there', () => {
    const made = built({ kind: 'variable-speed', setBar: 2.5 });
    const chances = flowChances(
      { curves: made.curves, house: made.house(1) },
      made.source([]),
      [],
      1,
    );
    const solved = m3sToLpm(solveLine(made.line, { open: 1 }).flowM3s);
    expect(Math.abs(meanLpm(made, chances) / solved - 1)).toBeLessThan(0.05);
    // a drive that runs full out gives more
    const stuck = { ...made.source([]), neverStops: true };
    const wild = flowChances({ curves: made.curves, house: made.house(1) }, stuck, [], 1);
    expect(meanLpm(made, wild)).toBeGreaterThan(1.15 * solved);
  });

  it('of a cycling pump is that between start and stop', () => {
    const made = built({ kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3 });
    const chances = flowChances(
      { curves: made.curves, house: made.house(1) },
      made.source([]),
      [],
      1,
    );
    const { cycle } = solveLine(made.line, { open: 1 });
    expect(cycle).not.toBeNull();
    const held = built({ kind: 'variable-speed', setBar: 2.5 });
    const same = m3sToLpm(solveLine(held.line, { open: 1 }).flowM3s);
    expect(Math.abs(meanLpm(made, chances) / same - 1)).toBeLessThan(0.05);
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
  const over = (effects: Parameters<typeof made.source>[0]) => {
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
