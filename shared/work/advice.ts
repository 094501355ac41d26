import type { Audience } from '../case/answer.ts';
import type { Result } from '../diagnosis/result.ts';
import type { DrinkingHazard } from '../ruleset/hazard.ts';
import type { Caution, RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';

/** The hazards in drinking water that a caution speaks of. */
const hazardsOf = ({ when }: Caution): DrinkingHazard[] =>
  when.flatMap((condition) => ('hazard' in condition ? [condition.hazard] : []));

/**
 * The water-safety advice that a diagnosis has put in force, by hazard. Where one caution speaks of several hazards
 * (chemical and metal) it stands for the likeliest, so that the step that shows it gone earns the advice back.
 */
export function adviceIn({ cautions, causes }: Result, rules: RuleSet): DrinkingHazard[] {
  const chance = (hazard: DrinkingHazard) =>
    Math.max(
      0,
      ...causes.flatMap(({ id, probability }) =>
        rules.causes[id]?.hazard === hazard ? [probability] : [],
      ),
    );
  const inForce = cautions.flatMap(({ id }) => {
    const caution = rules.cautions[id];
    const byChance = (caution ? hazardsOf(caution) : []).toSorted((a, b) => chance(b) - chance(a));
    return byChance.slice(0, 1);
  });
  return [...new Set(inForce)].sort();
}

/** What to say about drinking for these hazards, and for whom in this household it matters most. */
export function adviceTexts(
  inForce: readonly DrinkingHazard[],
  before: Result,
  audience: Audience,
  rules: RuleSet,
  words: Words,
): string[] {
  if (inForce.length === 0) return [];
  const told = new Set(before.cautions.map(({ id }) => id));
  return Object.entries(rules.cautions).flatMap(([id, caution]) => {
    const isMeant = hazardsOf(caution).some((hazard) => inForce.includes(hazard));
    const isForSome = told.has(id) && caution.when.some((one) => 'household' in one);
    return isMeant || isForSome ? (words.cautions[id]?.[audience] ?? []) : [];
  });
}
