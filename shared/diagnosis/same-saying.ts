import type { RuleSet } from '../ruleset/schema.ts';
import type { Observation } from './signs.ts';

/**
 * The same observation told twice counts once. In each group of the rule set the strongest answer counts in full, or the
 * one that tells it most exactly where the group names it ("smells of chlorine", not "it smells"); each other one either
 * repeats it or was seen independently.
 * @param solved answers already taken up by the hydraulics: they count in full there
 * @returns per observation the chance that it only repeats another
 */
export function repeatChances(
  observations: readonly Observation[],
  solved: ReadonlyMap<string, readonly string[]>,
  rules: RuleSet,
): number[] {
  const repeats = observations.map(() => 0);
  for (const group of rules.head.sameSaying) {
    const isMember = (question: string, answer: string) =>
      group.answers.some((member) => member.question === question && member.oneOf.includes(answer));
    const members = observations.flatMap((o, i) =>
      o.answer !== null && isMember(o.question, o.answer) ? [{ o, i }] : [],
    );
    const taken = [...solved].some(([question, answers]) =>
      answers.some((answer) => isMember(question, answer)),
    );
    if (members.length + (taken ? 1 : 0) < 2) continue;
    const exact = members.find(({ o }) => o.question === group.full);
    const strongest = taken
      ? null
      : (exact ?? members.reduce((best, m) => (strength(best.o) >= strength(m.o) ? best : m)));
    for (const member of members) {
      if (member !== strongest) repeats[member.i] = Math.max(repeats[member.i] ?? 0, group.repeats);
    }
  }
  return repeats;
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

/** An observation that, with this chance, says nothing new. */
export function soften(o: Observation, chance: number): Observation {
  if (chance === 0) return o;
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
