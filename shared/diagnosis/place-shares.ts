import type { Judgement } from './judge.ts';

export interface PlaceShare {
  readonly id: string;
  /** chance that it is this part, given the cause is present; two stages may both be */
  readonly probability: number;
}

/** Where a cause sits: by the readings for hydraulic causes, by prior odds (age, work) for the others. */
export function placesOf(judgement: Judgement, cause: string): PlaceShare[] {
  const { candidates, evidence, posterior, suspects } = judgement;
  const shares = new Map<string, number>();
  let total = 0;
  const quality = suspects.quality.filter((s) => s.cause === cause);
  if (quality.length > 0) {
    for (const suspect of quality) shares.set(suspect.part, suspect.odds);
    total = quality.reduce((sum, suspect) => sum + suspect.odds, 0);
  } else {
    const overdue = suspects.overdue.get(cause);
    if (overdue) return [{ id: overdue.part, probability: 1 }];
    const row = posterior.row;
    const own = candidates.findIndex((c) => c.suspect.cause === cause);
    const block = candidates[own]?.cause ?? -1;
    judgement.hydraulic.sets.forEach((set, i) => {
      if (set.includes(block)) total += row[i] ?? 0;
    });
    candidates.forEach((candidate, k) => {
      if (candidate.suspect.cause !== cause) return;
      let sum = 0;
      evidence.byCandidate[k]?.forEach((weight, i) => {
        const all = evidence.weight[i] ?? 0;
        if (weight > 0 && all > 0) sum += ((row[i] ?? 0) * weight) / all;
      });
      shares.set(candidate.suspect.part, sum);
    });
  }
  return [...shares]
    .map(([id, share]) => ({
      id,
      probability: total > 0 ? Math.min(1, share / total) : 1 / shares.size,
    }))
    .sort((a, b) => b.probability - a.probability || (a.id < b.id ? -1 : 1));
}
