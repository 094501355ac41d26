import { describe, expect, it } from 'vitest';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import type { HouseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { MEAN_LOADING } from '../../shared/diagnosis/segment-loss.ts';
import type { Source } from '../../shared/diagnosis/source.ts';
import { flowChances, unreadWeights } from '../../shared/diagnosis/unread-state.ts';
import { along, curvesWith, effect, house, LPM, part, sourceWith } from './made-line.ts';

/**
 * Flows without a gauge on a line of round figures: normal in ln(flow) about the flow at which supply and need meet, as wide as
 * the taps' size and the pressures are unsure, divided by how steeply both part there.
 */
const curves = curvesWith({ parts: [null, part({ loads: true }), part(), null] });
const at = (values: Float64Array, j: number) => values[j] ?? Number.NaN;

function byDefinition(
  source: Source,
  effects: readonly Effect[],
  loaded: number,
  home: HouseCurve = house,
): number[] {
  const pipeTimes = effects.reduce((so, e) => so * e.pipeTimes, 1);
  const outletLn = effects.reduce((sum, e) => sum + e.outletLn, 0);
  const tap = (j: number) => at(home.tapBar, j) * Math.exp(-2 * outletLn);
  const loss = (j: number) =>
    curves.parts.reduce((sum, p) => {
      if (!p) return sum;
      return sum + at(p.lossBar, j) + (p.loads ? (loaded - 1) * at(p.linearBar, j) : 0);
    }, 0) + effects.reduce((sum, e) => sum + (e.partLoss?.[j] ?? 0), 0);
  const supply = (j: number) => {
    const { control, neverStops, lowBar, highBar } = source;
    const [raw, cycles] = [at(source.raw, j), at(source.cycling, j)];
    const given = control === 'variable-speed' && !neverStops ? Math.min(raw, highBar) : raw;
    return control === 'pressure-switch'
      ? cycles * ((lowBar + highBar) / 2) + (1 - cycles) * given
      : given;
  };
  const surplus = LPM.map(
    (_, j) => supply(j) - loss(j) - home.staticBar - at(home.pipeBar, j) * pipeTimes - tap(j),
  );
  const over = (j: number) => surplus[j] ?? Number.NaN;
  if (over(0) <= 0.003) return LPM.map((_, j) => Number(j === 0));
  const last = LPM.length - 1;
  const first = surplus.findIndex((bar) => bar <= 0);
  const low = (first < 0 ? last : first) - 1;
  const fall = over(low) - over(low + 1);
  // where even the last flow leaves a surplus, or nothing falls, it is held at the next of the grid
  const meets = low + (fall > 0 ? Math.min(1, over(low) / fall) : 0);
  const outlet = Math.max(0.01, tap(low));
  const steepness = Math.max(1, fall / Math.LN2 / (2 * outlet));
  const unsureBar = Math.hypot(
    at(source.sd, low),
    0.25 * loss(low),
    source.control === 'pressure-switch' ? 0.2 : 0,
  );
  const sizeSd = Math.hypot(home.sizeSd, outletLn === 0 ? 0 : 0.3);
  const sd = Math.max(0.12, (sizeSd + unsureBar / (2 * outlet)) / steepness) / Math.LN2;
  const weights = LPM.map((_, j) =>
    j >= 1 && j >= Math.floor(meets - 4 * sd) && j <= Math.ceil(meets + 4 * sd)
      ? Math.exp(-0.5 * ((j - meets) / sd) ** 2)
      : 0,
  );
  const total = weights.reduce((sum, w) => sum + w, 0);
  return weights.map((w) => w / total);
}

const block = effect({ at: 2, partLoss: along((q) => 0.3 * q), spread: 0.2 });
const open = effect({ at: 1, partLoss: along((q) => -0.01 * q), spread: 0.2 });
const narrow = effect({ outletLn: -0.5 });
const wide = effect({ outletLn: 0.4 });
const rusty = effect({ pipeTimes: 9 });
const sources: [string, Source][] = [
  ['a switch that runs on', sourceWith()],
  ['a switch that cycles', sourceWith({ cycling: along(() => 1) })],
  [
    'a switch that cycles at small flows',
    sourceWith({ cycling: along((q) => (q < 3 ? 0.8 : 0.1)) }),
  ],
  [
    'a controller',
    sourceWith({ control: 'flow-controller', cycling: along((q) => Number(q < 2)) }),
  ],
  ['a held pressure', sourceWith({ control: 'variable-speed', lowBar: 3, highBar: 3 })],
  [
    'a held pressure that is not held',
    sourceWith({ control: 'variable-speed', lowBar: 3, highBar: 3, neverStops: true }),
  ],
  ['no control', sourceWith({ control: 'none' })],
  ['a pump nobody knows', sourceWith({ control: 'none', sd: along(() => 0.9) })],
  ['just enough to reach the taps', sourceWith({ raw: along((q) => 0.404 - 0.01 * q) })],
  ['not enough to reach the taps', sourceWith({ raw: along((q) => 0.4029 - 0.01 * q) })],
  ['more than the line can take', sourceWith({ raw: along(() => 60) })],
  ['a pump that gives more the more it runs', sourceWith({ raw: along((q) => 5 + 5 * q) })],
];
const faults: [string, Effect[]][] = [
  ['no fault', []],
  ['a restriction', [block]],
  ['a part taken out', [open]],
  ['narrow outlets', [narrow]],
  ['wide outlets', [wide]],
  ['a rusty pipe', [rusty]],
  ['a restriction and narrow outlets', [block, narrow]],
  ['a rusty pipe and wide outlets', [rusty, wide]],
];

describe.each(sources)('%s', (_, source) => {
  it.each(faults)('and %s: the flows are spread by their definition', (_name, effects) => {
    for (const loaded of [1, 1.7, 3.2])
      for (const home of [
        house,
        { ...house, sizeSd: 1.2 },
        { ...house, tapBar: along(() => 1e-4) },
      ]) {
        const ours = flowChances({ curves, house: home }, source, effects, loaded);
        byDefinition(source, effects, loaded, home).forEach((chance, j) => {
          expect(ours[j]).toBeCloseTo(chance, 9);
        });
      }
  });
});

it('two faults are weighed at the usual loading, each wherever it moves water', () => {
  const source = sourceWith();
  const weights = unreadWeights({ curves, house, sourceWith: () => source });
  const worn = effect({ atSource: true });
  for (const effects of [
    [block, narrow],
    [worn, rusty],
    [rusty, worn],
  ])
    byDefinition(source, effects, MEAN_LOADING).forEach((chance, j) => {
      expect(weights(effects)[j]).toBeCloseTo(chance, 9);
    });
  // what moves no water leaves the other as it is
  const still = effect();
  for (const moving of [block, narrow, rusty, worn]) {
    const alone = [...weights([moving])];
    expect([...weights([moving, still])]).toEqual(alone);
    expect([...weights([still, moving])]).toEqual(alone);
    expect([...weights([moving])]).toEqual(alone);
  }
  expect([...weights([still, effect()])]).toEqual([...weights([])]);
});

it('what is written to an array of the caller’s comes out the same', () => {
  const out = new Float64Array(LPM.length).fill(7);
  const given = flowChances({ curves, house }, sourceWith(), [block], 1, out);
  expect(given).toBe(out);
  expect([...out]).toEqual([...flowChances({ curves, house }, sourceWith(), [block], 1)]);
});
