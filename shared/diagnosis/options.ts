import { partsInPlace } from '../case/places.ts';
import { holds } from './condition.ts';
import type { Judgement } from './judge.ts';
import { placesOf } from './place-shares.ts';
import type { Option } from './strategy.ts';

/** A part is worked on when it is at least this likely to be the one, the likeliest always. */
const LIKELY_PLACE = 0.3;

/** The rule set's jobs that could end something possible here, with the parts each would be done on. */
export function optionsOf(judgement: Judgement): Option[] {
  const { rules, probabilities, facts } = judgement;
  const options: Option[] = [];
  for (const [id, job] of Object.entries(rules.jobs)) {
    if (
      job.answers ||
      facts.notAgain.has(id) ||
      !job.when.every((condition) => holds(condition, facts, rules))
    )
      continue;
    const cures = new Map<string, number>();
    let lead: string | null = null;
    for (const [cause, word] of Object.entries(job.cures)) {
      const probability = probabilities.get(cause) ?? 0;
      if (probability <= 1e-4) continue;
      cures.set(cause, rules.head.frequencies[word]);
      if (rules.causes[cause] && (lead === null || probability > (probabilities.get(lead) ?? 0)))
        lead = cause;
    }
    if (cures.size === 0 && !job.lastResort) continue;
    const parts = lead && !job.lastResort ? partsFor(judgement, lead, job.perPart) : [];
    if (job.perPart && lead) {
      for (const [cause, chance] of cures)
        cures.set(cause, chance * coverage(judgement, cause, parts));
    }
    options.push({ id, job, parts, cures });
  }
  return options;
}

function partsFor(judgement: Judgement, cause: string, perPart: boolean): string[] {
  if (!perPart) {
    const table = judgement.rules.causes[cause];
    return table ? partsInPlace(table.in, judgement.facts.plant) : [];
  }
  const places = placesOf(judgement, cause);
  return places
    .filter((place, i) => i === 0 || place.probability >= LIKELY_PLACE)
    .map((place) => place.id);
}

/** Chance that the fault sits in these parts. */
function coverage(judgement: Judgement, cause: string, parts: readonly string[]): number {
  const places = placesOf(judgement, cause);
  if (places.length === 0) return 1;
  const covered = places
    .filter((place) => parts.includes(place.id))
    .reduce((sum, place) => sum + place.probability, 0);
  return Math.min(1, covered);
}
