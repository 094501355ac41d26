import { partsInPlace } from '../case/places.ts';
import { media } from '../plant/schema.ts';
import type { Cause } from '../ruleset/cause.ts';
import { ageOf } from './ages.ts';
import type { Judgement } from './judge.ts';
import type { Outcomes } from './predict.ts';
import { ageOdds } from './suspects.ts';
import type { Worlds } from './worlds.ts';

/** What is there exactly when its part is past its life, is hardly ever there with a younger one. */
const HARDLY = 0.02;

const ageFactor = (cause: Cause, share: number, present: boolean): number =>
  cause.pastLife ? (present === share > 1 ? 1 : HARDLY) : present ? ageOdds(share) : 1;

/** Ages people tell, as shares of life, and how often (common practice). */
const TOLD_AGES = [
  { share: 0.3, chance: 0.4 },
  { share: 0.8, chance: 0.35 },
  { share: 1.6, chance: 0.25 },
] as const;

/**
 * When cartridges were changed, or how long a lamp has burnt: young parts speak against what comes with age. One
 * outcome per age told; a world's chances over all ages sum to one.
 */
export function ageOutcomes(
  kind: 'dates' | 'hours',
  judgement: Judgement,
  worlds: Worlds,
): Outcomes {
  const { rules, facts } = judgement;
  const comesWithAge = Object.entries(rules.causes).filter(([, cause]) => {
    const fits = kind === 'hours' ? cause.in === 'uv' : media.some((medium) => medium === cause.in);
    // an age that is known already is not news
    return (
      fits &&
      cause.lifeMonths !== undefined &&
      facts.plant.line.some(
        (part) =>
          partsInPlace(cause.in, facts.plant).includes(part.id) &&
          ageOf(cause, part, facts, rules) === null,
      )
    );
  });
  const weights = TOLD_AGES.map(({ share, chance }) =>
    worlds.list.map(({ causes }) =>
      comesWithAge.reduce<number>(
        (product, [id, cause]) => product * ageFactor(cause, share, causes.includes(id)),
        chance,
      ),
    ),
  );
  return weights.map((row) =>
    Float64Array.from(
      row,
      (weight, w) => weight / weights.reduce((sum, other) => sum + (other[w] ?? 0), 0),
    ),
  );
}
