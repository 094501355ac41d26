import type { Effect } from './effects.ts';
import type { Judgement } from './judge.ts';
import { NOT_LISTED, NOTHING } from './signs.ts';

/**
 * One way things may be: the causes present together and their posterior probability, with the hydraulic severities
 * that explain the answers best. The likeliest few hundred stand for all when the next question and the plan are
 * weighed; their probabilities are scaled to sum to one.
 */
export interface World {
  readonly causes: readonly string[];
  readonly probability: number;
  /** index of its hydraulic and quality set in the reduced blocks; −1 for something not listed */
  readonly h: number;
  readonly q: number;
  /** severities weighted by how well they fit */
  readonly effects: readonly Effect[];
}

export interface Worlds {
  readonly list: readonly World[];
  /** the hydraulic and quality sets that occur, as index lists into the blocks' causes */
  readonly hSets: readonly (readonly number[])[];
  readonly qSets: readonly (readonly number[])[];
}

const MOST_WORLDS = 60;
const KEPT = 0.985;

export function worldsOf(judgement: Judgement): Worlds {
  const { hydraulic, quality, posterior } = judgement;
  const columns = quality.sets.length;
  const ranked = likeliest(posterior.joint, MOST_WORLDS);
  const hSets: (readonly number[])[] = [];
  const qSets: (readonly number[])[] = [];
  const hAt = new Map<number, number>();
  const qAt = new Map<number, number>();
  const place = (
    at: Map<number, number>,
    sets: (readonly number[])[],
    from: readonly (readonly number[])[],
    i: number,
  ) => {
    const known = at.get(i);
    if (known !== undefined) return known;
    at.set(i, sets.length);
    sets.push(from[i] ?? []);
    return sets.length - 1;
  };
  const list: World[] = [];
  let kept = posterior.notListed;
  for (const index of ranked) {
    const probability = posterior.joint[index] ?? 0;
    if (kept > KEPT || probability <= 0) break;
    kept += probability;
    const i = Math.floor(index / columns);
    const j = index % columns;
    const hSet = hydraulic.sets[i] ?? [];
    const qSet = quality.sets[j] ?? [];
    const causes = [
      ...hSet.map((c) => hydraulic.causes[c] ?? ''),
      ...qSet.map((c) => quality.causes[c] ?? ''),
    ];
    list.push({
      causes: causes.length > 0 ? causes : [NOTHING],
      probability,
      h: place(hAt, hSets, hydraulic.sets, i),
      q: place(qAt, qSets, quality.sets, j),
      effects: bestEffects(judgement, i),
    });
  }
  list.push({ causes: [NOT_LISTED], probability: posterior.notListed, h: -1, q: -1, effects: [] });
  const total = list.reduce((sum, world) => sum + world.probability, 0);
  return {
    list: list.map((world) => ({ ...world, probability: world.probability / total })),
    hSets,
    qSets,
  };
}

/** Indexes of the largest entries, largest first. */
function likeliest(values: Float64Array, count: number): number[] {
  const top: number[] = [];
  let least = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? 0;
    if (top.length >= count && value <= least) continue;
    let at = top.length;
    while (at > 0 && (values[top[at - 1] ?? 0] ?? 0) < value) at--;
    top.splice(at, 0, i);
    if (top.length > count) top.pop();
    least = values[top.at(-1) ?? 0] ?? 0;
  }
  return top;
}

/** The severities of a hydraulic set that fit best, in its likeliest places. */
function bestEffects(
  { hydraulic, candidates, evidence, measured }: Judgement,
  set: number,
): Effect[] {
  const effects: Effect[] = [];
  for (const cause of hydraulic.sets[set] ?? []) {
    let place = -1;
    candidates.forEach((candidate, i) => {
      if (candidate.cause !== cause) return;
      if (
        place < 0 ||
        (evidence.byCandidate[i]?.[set] ?? 0) > (evidence.byCandidate[place]?.[set] ?? 0)
      )
        place = i;
    });
    const options = candidates[place]?.coarse ?? [];
    let best: Effect | null = null;
    let most = -1;
    for (const effect of options) {
      const fit = effect.weight * (measured.likelihoods([...effects, effect])[0] ?? 0);
      if (fit > most) {
        most = fit;
        best = effect;
      }
    }
    if (best) effects.push(best);
  }
  return effects;
}
