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
}

const FINE = 9;
/** Beside a second fault, so many severities in all, over the ways a cause has. */
const COARSE = 3;

export function candidatesOf(
  suspects: readonly Suspect[],
  block: Block,
  model: Model,
): Candidate[] {
  let id = 0;
  const nextId = () => id++;
  return suspects.map((suspect) => ({
    suspect,
    cause: block.causes.indexOf(suspect.cause),
    effects: effectsOf(suspect, model.plant, model.line, model.curves, FINE, nextId),
    coarse: effectsOf(
      suspect,
      model.plant,
      model.line,
      model.curves,
      Math.max(1, Math.floor(COARSE / Math.max(1, suspect.table.changes.length))),
      nextId,
    ),
  }));
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
  const { variants, likelihoods, unlisted } = measured;
  const weights = variants.map(() => new Float64Array(block.sets.length));
  const byCandidate = candidates.map(() => new Float64Array(block.sets.length));
  const sums = new Float64Array(variants.length);
  const addScenario = (effects: readonly Effect[], weight: number) => {
    const chances = likelihoods(effects);
    for (let v = 0; v < sums.length; v++) sums[v] = (sums[v] ?? 0) + weight * (chances[v] ?? 0);
  };
  const addSet = (set: number, odds: number, ...members: number[]) => {
    weights.forEach((weight, v) => {
      weight[set] = (weight[set] ?? 0) + odds * (sums[v] ?? 0);
    });
    for (const member of members) {
      const own = byCandidate[member];
      if (own) own[set] = (own[set] ?? 0) + odds * (sums[0] ?? 0);
    }
    sums.fill(0);
  };
  addScenario([], 1);
  addSet(0, 1);
  // A severity that shows in nothing measured leaves the other fault's likelihood as it is.
  const active = candidates.map((candidate) => candidate.coarse.filter(measured.shows));
  const hidden = candidates.map(
    (candidate, i) =>
      candidate.coarse.reduce((sum, e) => sum + e.weight, 0) -
      (active[i] ?? []).reduce((sum, e) => sum + e.weight, 0),
  );
  const none = likelihoods([]).slice();
  const ofEffect = new Map<Effect, Float64Array>();
  const alone = active.map((effects) => {
    const total = new Float64Array(variants.length);
    for (const effect of effects) {
      const chances = likelihoods([effect]).slice();
      ofEffect.set(effect, chances);
      chances.forEach((chance, v) => {
        total[v] = (total[v] ?? 0) + effect.weight * chance;
      });
    }
    return total;
  });
  const addKnown = (chances: Float64Array | undefined, weight: number) => {
    for (let v = 0; v < sums.length; v++) sums[v] = (sums[v] ?? 0) + weight * (chances?.[v] ?? 0);
  };
  const pair: Effect[] = [];
  const addPair = (a: Effect, b: Effect) => {
    const weight = a.weight * b.weight;
    // Behind a pump that gives nothing no other restriction shows.
    if (a.change.pumpGives && hiddenBehind(b)) return addKnown(ofEffect.get(a), weight);
    if (b.change.pumpGives && hiddenBehind(a)) return addKnown(ofEffect.get(b), weight);
    pair[0] = a;
    pair[1] = b;
    return addScenario(pair, weight);
  };
  candidates.forEach((a, i) => {
    for (const effect of a.effects) addScenario([effect], effect.weight);
    addSet(setIndex(block, a.cause), a.suspect.odds, i);
    for (let k = i + 1; k < candidates.length; k++) {
      const b = candidates[k];
      if (!b) continue;
      for (const ea of active[i] ?? []) {
        for (const eb of active[k] ?? []) addPair(ea, eb);
      }
      addKnown(alone[i], hidden[k] ?? 0);
      addKnown(alone[k], hidden[i] ?? 0);
      addKnown(none, (hidden[i] ?? 0) * (hidden[k] ?? 0));
      addSet(setIndex(block, a.cause, b.cause), a.suspect.odds * b.suspect.odds, i, k);
    }
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
