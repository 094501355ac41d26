import { type Effect, effectsOf } from './effects.ts';
import type { Model } from './model.ts';
import type { HydraulicEvidence } from './posterior.ts';
import type { Measured } from './scenario.ts';
import { type Block, setIndex } from './sets.ts';
import type { Suspect } from './suspects.ts';

/** A hydraulic suspect with its severities on the plant's curves: fine by itself, coarser beside a second fault. */
export interface Candidate {
  readonly suspect: Suspect;
  readonly cause: number;
  readonly effects: readonly Effect[];
  readonly coarse: readonly Effect[];
  /** one severity of each way: enough to see whether a pair could matter at all */
  readonly rough: readonly Effect[];
}

const FINE = 9;
/** Beside a second fault, so many severities in all, over the ways a cause has by their shares; one of each at least. */
const COARSE = 3;
const ROUGH = 1;
/** A pair that roughly weighs less than this share of the single faults is not looked at more closely. */
const MATTERS = 1e-5;
const TINY = 1e-300;

export function candidatesOf(
  suspects: readonly Suspect[],
  block: Block,
  model: Model,
): Candidate[] {
  let id = 0;
  const nextId = () => id++;
  return suspects.map((suspect) => {
    const effects = (most: (share: number) => number) =>
      effectsOf(suspect, model.plant, model.line, model.curves, most, nextId);
    return {
      suspect,
      cause: block.causes.indexOf(suspect.cause),
      effects: effects(() => FINE),
      coarse: effects((share) => Math.max(1, Math.round(COARSE * share))),
      rough: effects(() => ROUGH),
    };
  });
}

/** The evidence with, for each candidate, what it contributes to each set it is part of. */
export interface PlacedEvidence extends HydraulicEvidence {
  readonly byCandidate: readonly Float64Array[];
  /** the same evidence with one answer left out, by question */
  readonly without: ReadonlyMap<string, HydraulicEvidence>;
}

/**
 * Sums the measured likelihood over places and severities: every set of one or two candidates, each severity weighed by
 * its chance. Two places of one cause (both sediment stages) belong to the set of that one cause.
 */
export function evidenceOf(
  candidates: readonly Candidate[],
  block: Block,
  measured: Measured,
): PlacedEvidence {
  const { variants, unlisted } = measured;
  const weights = variants.map(() => new Float64Array(block.sets.length));
  const byCandidate = candidates.map(() => new Float64Array(block.sets.length));
  const addSet = (set: number, odds: number, sums: Float64Array, ...members: number[]) => {
    weights.forEach((weight, v) => {
      weight[set] = (weight[set] ?? 0) + odds * (sums[v] ?? 0);
    });
    for (const member of members) {
      const own = byCandidate[member];
      if (own) own[set] = (own[set] ?? 0) + odds * (sums[0] ?? 0);
    }
  };
  const sum = summing(measured);
  addSet(0, 1, sum.none);
  candidates.forEach((a, i) => {
    addSet(setIndex(block, a.cause), a.suspect.odds, sum.alone(a.effects), i);
  });
  const single = (weights[0] ?? new Float64Array()).reduce((total, weight) => total + weight, 0);
  const refined = candidates.map(
    ({ effects, rough }) => (sum.alone(effects)[0] ?? 0) / Math.max(TINY, sum.alone(rough)[0] ?? 0),
  );
  candidates.forEach((a, i) => {
    candidates.slice(i + 1).forEach((b, beyond) => {
      const k = i + 1 + beyond;
      const odds = a.suspect.odds * b.suspect.odds;
      const rough = sum.together(a.rough, b.rough);
      // Where the right severity of one explains so much more than its rough one, it will do so beside another too.
      const likely = (rough[0] ?? 0) * Math.max(1, refined[i] ?? 1, refined[k] ?? 1);
      const sums = odds * likely > MATTERS * single ? sum.together(a.coarse, b.coarse) : rough;
      addSet(setIndex(block, a.cause, b.cause), odds, sums, i, k);
    });
  });
  const evidence = variants.map((_, v) => ({
    weight: weights[v] ?? new Float64Array(),
    unlisted: unlisted[v] ?? 1,
  }));
  const without = new Map<string, HydraulicEvidence>();
  variants.forEach((question, v) => {
    const rest = evidence[v];
    if (question !== null && rest) without.set(question, rest);
  });
  return {
    weight: weights[0] ?? new Float64Array(),
    unlisted: unlisted[0] ?? 1,
    byCandidate,
    without,
  };
}

/** A candidate's severities as far as they show in what was measured, and the likelihood of each alone. */
interface Shown {
  readonly effects: readonly { readonly effect: Effect; readonly chances: Float64Array }[];
  /** weighed sum of these */
  readonly total: Float64Array;
  /** chance of a severity that shows in nothing: it leaves the other fault's likelihood as it is */
  readonly hidden: number;
}

/** Weighed sums over severities, one number per variant: of one fault alone and of two together. */
function summing({ variants, likelihoods, shows }: Measured) {
  const none = likelihoods([]).slice();
  const add = (sums: Float64Array, chances: Float64Array, weight: number) => {
    for (let v = 0; v < sums.length; v++) sums[v] = (sums[v] ?? 0) + weight * (chances[v] ?? 0);
  };
  const kept = new Map<readonly Effect[], Shown>();
  const shown = (severities: readonly Effect[]): Shown => {
    const known = kept.get(severities);
    if (known) return known;
    const effects = severities
      .filter(shows)
      .map((effect) => ({ effect, chances: likelihoods([effect]).slice() }));
    const total = new Float64Array(variants.length);
    for (const { effect, chances } of effects) add(total, chances, effect.weight);
    const all = severities.reduce((sum, effect) => sum + effect.weight, 0);
    const hidden = all - effects.reduce((sum, { effect }) => sum + effect.weight, 0);
    const made = { effects, total, hidden };
    kept.set(severities, made);
    return made;
  };
  return {
    none,
    alone: (severities: readonly Effect[]): Float64Array => {
      const { total, hidden } = shown(severities);
      const sums = total.slice();
      add(sums, none, hidden);
      return sums;
    },
    together: (first: readonly Effect[], second: readonly Effect[]): Float64Array => {
      const [a, b] = [shown(first), shown(second)];
      const sums = new Float64Array(variants.length);
      for (const one of a.effects) {
        for (const two of b.effects) {
          const weight = one.effect.weight * two.effect.weight;
          // Behind a pump that gives nothing no other restriction shows.
          if (one.effect.change.pumpGives && hiddenBehind(two.effect))
            add(sums, one.chances, weight);
          else if (two.effect.change.pumpGives && hiddenBehind(one.effect))
            add(sums, two.chances, weight);
          else add(sums, likelihoods([one.effect, two.effect]), weight);
        }
      }
      add(sums, a.total, b.hidden);
      add(sums, b.total, a.hidden);
      add(sums, none, a.hidden * b.hidden);
      return sums;
    },
  };
}

/** Whether an effect only takes pressure from running water, or from a running pump. */
function hiddenBehind({ gauge, change }: Effect): boolean {
  const tested = [
    change.levelM,
    change.leakLpm,
    change.backLeakLpm,
    change.prechargeBar,
    change.gasTimes,
    change.waterlogged,
    change.pumpGives,
    change.reducerBar,
    change.reducerPasses,
  ];
  return gauge === null && tested.every((value) => value === undefined);
}

/** Prior odds of a block's sets alone, before anything was measured. */
export function priorOf(suspects: readonly Suspect[], block: Block): Float64Array {
  const prior = new Float64Array(block.sets.length);
  prior[0] = 1;
  const at = suspects.map((suspect) => block.causes.indexOf(suspect.cause));
  suspects.forEach((a, i) => {
    const single = setIndex(block, at[i] ?? 0);
    prior[single] = (prior[single] ?? 0) + a.odds;
    for (let k = i + 1; k < suspects.length; k++) {
      const set = setIndex(block, at[i] ?? 0, at[k] ?? 0);
      prior[set] = (prior[set] ?? 0) + a.odds * (suspects[k]?.odds ?? 0);
    }
  });
  return prior;
}
