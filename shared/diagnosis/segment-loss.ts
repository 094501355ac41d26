import type { Effect } from './effects.ts';
import type { Curves } from './flow-grid.ts';
import { heldBy, type Reducer } from './reducers.ts';

/** What clean-enough cartridges may have loaded, below the 5 × that counts as blocked, and how often. */
export const LOADING = [
  { times: 1.05, chance: 0.45 },
  { times: 1.7, chance: 0.33 },
  { times: 3.2, chance: 0.22 },
] as const;
export const MEAN_LOADING = LOADING.reduce((sum, { times, chance }) => sum + times * chance, 0);

export interface Loss {
  readonly mean: Float64Array;
  readonly sd: Float64Array;
  /** what a reducer and all before it take of the mean: it depends on what stands before them and grows with no flow */
  readonly held?: Float64Array;
}

/** What the parts between two places of the line take, loaded this much, with the effects among them. */
function lossOf(
  curves: Curves,
  from: number,
  to: number,
  loaded: number,
  effects: readonly Effect[],
): Loss {
  const here = effects.filter((e) => e.partLoss && e.at > from && e.at < to);
  const clean = cleanLossOf(curves, from, to, loaded);
  if (here.length === 0) return clean;
  const mean = clean.mean.slice();
  const sd = clean.sd.slice();
  for (const { partLoss, spread } of here) {
    for (let j = 0; j < mean.length; j++) {
      const bar = partLoss?.[j] ?? 0;
      mean[j] = (mean[j] ?? 0) + bar;
      sd[j] = Math.sqrt((sd[j] ?? 0) ** 2 + (spread * bar) ** 2);
    }
  }
  return { mean, sd };
}

/** The same with a reducer in between, before which so much stands. */
function heldLossOf(
  curves: Curves,
  from: number,
  to: number,
  loaded: number,
  effects: readonly Effect[],
  inletBar: number,
): Loss {
  const [reducer] = reducersBetween(curves, from, to)
    .map((one) => ({ at: one.at, ...heldBy(one, effects) }))
    .sort((a, b) => a.bar - b.bar);
  if (!reducer) return lossOf(curves, from, to, loaded, effects);
  const before = lossOf(curves, from, reducer.at, loaded, effects);
  const after = lossOf(curves, reducer.at, to, loaded, effects);
  const takes = inletBar - reducer.bar;
  const holds = (j: number) => takes > (before.mean[j] ?? 0);
  return {
    mean: after.mean.map((bar, j) => bar + Math.max(takes, before.mean[j] ?? 0)),
    sd: after.sd.map((sd, j) => Math.hypot(sd, holds(j) ? reducer.sd : (before.sd[j] ?? 0))),
    held: after.mean.map((_, j) => (holds(j) ? takes : 0)),
  };
}

export const reducersBetween = ({ reducers }: Curves, from: number, to: number): Reducer[] =>
  reducers.filter(({ at }) => at > from && at < to);

const cleanLosses = new WeakMap<Curves, Map<string, Loss>>();

/** The same without any fault; kept per plant because every scenario asks for it. */
function cleanLossOf(curves: Curves, from: number, to: number, loaded: number): Loss {
  const kept = cleanLosses.get(curves) ?? new Map<string, Loss>();
  cleanLosses.set(curves, kept);
  const key = `${from} ${to} ${loaded}`;
  const known = kept.get(key);
  if (known) return known;
  const flows = curves.lpm.length;
  const mean = new Float64Array(flows);
  const variance = new Float64Array(flows);
  for (let at = from + 1; at < to; at++) {
    const part = curves.parts[at];
    if (!part) continue;
    for (let j = 0; j < flows; j++) {
      const bar =
        (part.lossBar[j] ?? 0) + (part.loads ? (loaded - 1) * (part.linearBar[j] ?? 0) : 0);
      mean[j] = (mean[j] ?? 0) + bar;
      variance[j] = (variance[j] ?? 0) + ((part.spread + 0.15) * bar) ** 2;
    }
  }
  const loss = { mean, sd: variance.map(Math.sqrt) };
  kept.set(key, loss);
  return loss;
}

/**
 * The same over the usual loadings; one of them where nothing in between loads.
 * @param inletBar what stands before it all: a reducer in between takes what is above its set pressure; null: without it
 */
export function loadings(
  curves: Curves,
  from: number,
  to: number,
  effects: readonly Effect[],
  inletBar: number | null,
): { loss: Loss; chance: number }[] {
  const lossAt = (loaded: number) =>
    inletBar === null
      ? lossOf(curves, from, to, loaded, effects)
      : heldLossOf(curves, from, to, loaded, effects, inletBar);
  let loads = false;
  for (let at = from + 1; at < to; at++) loads ||= curves.parts[at]?.loads ?? false;
  if (!loads) return [{ loss: lossAt(1), chance: 1 }];
  // Beside two faults in one segment the loading of the rest hardly shows.
  if (effects.length > 1) return [{ loss: lossAt(MEAN_LOADING), chance: 1 }];
  return LOADING.map(({ times, chance }) => ({ loss: lossAt(times), chance }));
}
