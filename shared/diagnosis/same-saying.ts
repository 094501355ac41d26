import type { RuleSet } from '../ruleset/schema.ts';
import type { Observation } from './signs.ts';

/**
 * The same observation told twice counts once. In each group of the rule set the strongest answer counts in full, or the
 * one that tells it most exactly where the group names it ("smells of chlorine", not "it smells"); each other one either repeats it (chance `repeats`, then it says nothing new) or was seen independently.
 * @param solved answers already taken up by the hydraulics: they count in full there
 */
export function withoutRepeats(
  observations: readonly Observation[],
  solved: ReadonlyMap<string, readonly string[]>,
  rules: RuleSet,
): Observation[] {
  const repeats = new Map<Observation, number>();
  for (const group of rules.head.sameSaying) {
    const isMember = (question: string, answer: string) =>
      group.answers.some((member) => member.question === question && member.oneOf.includes(answer));
    const members = observations.filter((o) => o.answer !== null && isMember(o.question, o.answer));
    const taken = [...solved].some(([question, answers]) =>
      answers.some((answer) => isMember(question, answer)),
    );
    const strongest = taken
      ? null
      : (members.find((o) => o.question === group.full) ??
        members.reduce<Observation | null>(
          (best, o) => (best && strength(best) >= strength(o) ? best : o),
          null,
        ));
    for (const member of members) {
      if (member !== strongest)
        repeats.set(member, Math.max(repeats.get(member) ?? 0, group.repeats));
    }
  }
  return observations.map((o) => {
    const chance = repeats.get(o);
    return chance === undefined ? o : soften(o, chance);
  });
}

/** How far an observation moves the odds between any two sets (natural log). */
function strength({ h, q, joint }: Observation): number {
  return [h, q, joint].reduce((sum, factor) => {
    if (!factor) return sum;
    let least = Number.POSITIVE_INFINITY;
    let most = 0;
    for (const value of factor) {
      if (value < least) least = value;
      if (value > most) most = value;
    }
    return sum + Math.log(most / least);
  }, 0);
}

function soften(o: Observation, chance: number): Observation {
  const mix = (value: number) => chance + (1 - chance) * value;
  return {
    ...o,
    h: o.h?.map(mix) ?? null,
    q: o.q?.map(mix) ?? null,
    joint: o.joint?.map(mix) ?? null,
    nothing: mix(o.nothing),
    unlisted: mix(o.unlisted),
  };
}
