import { partsInPlace } from '../case/places.ts';
import { media } from '../plant/schema.ts';
import type { Judgement } from './judge.ts';
import type { Outcomes } from './predict.ts';
import { ageOdds } from './suspects.ts';
import type { Worlds } from './worlds.ts';

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
  const comesWithAge = (cause: string) => {
    const table = rules.causes[cause];
    if (table?.lifeMonths === undefined) return false;
    const fits = kind === 'hours' ? table.in === 'uv' : media.some((medium) => medium === table.in);
    return fits && partsInPlace(table.in, facts.plant).length > 0;
  };
  const weights = TOLD_AGES.map(({ share, chance }) =>
    worlds.list.map(({ causes }) => chance * ageOdds(share) ** causes.filter(comesWithAge).length),
  );
  return weights.map((row) =>
    Float64Array.from(
      row,
      (weight, w) => weight / weights.reduce((sum, other) => sum + (other[w] ?? 0), 0),
    ),
  );
}
