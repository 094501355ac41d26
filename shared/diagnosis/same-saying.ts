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

const strengths = new WeakMap<Observation, number>();

/** How far an observation moves the odds between any two sets (natural log); asked again for every answer left out. */
function strength(o: Observation): number {
  const known = strengths.get(o);
  if (known !== undefined) return known;
  const sum = [o.h, o.q, o.joint].reduce((total, factor) => total + (factor ? span(factor) : 0), 0);
  strengths.set(o, sum);
  return sum;
}

function span(factor: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  let most = 0;
  for (let i = 0; i < factor.length; i++) {
    least = Math.min(least, factor[i] ?? least);
    most = Math.max(most, factor[i] ?? most);
  }
  return Math.log(most / least);
}

/** An observation that, with this chance, says nothing new. */
export function soften(o: Observation, chance: number): Observation {
  if (chance === 0) return o;
  const mix = (value: number) => chance + (1 - chance) * value;
  const mixed = (factor: Float64Array | null) => {
    if (!factor) return null;
    const out = new Float64Array(factor.length);
    for (let i = 0; i < out.length; i++) out[i] = mix(factor[i] ?? 1);
    return out;
  };
  return {
    ...o,
    h: mixed(o.h),
    q: mixed(o.q),
    joint: mixed(o.joint),
    nothing: mix(o.nothing),
    unlisted: mix(o.unlisted),
  };
}
