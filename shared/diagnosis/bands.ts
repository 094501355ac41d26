import type { Question } from '../ruleset/schema.ts';

/** The answer ids a value comes to, and those it rules out (a list's unticked items, a water test's good values). */
export interface Seen {
  readonly seen: readonly string[];
  readonly notSeen: readonly string[];
}

/** Turns a checked value into answer ids of the question's table: as it is, or by the question's bands. */
export function seenAnswers(question: Question, value: unknown): Seen {
  if (typeof value === 'string' && !question.bands) return { seen: [value], notSeen: [] };
  if (Array.isArray(value)) {
    const counted =
      value.length > 1 ? value.filter((answer) => !question.alone.includes(answer)) : value;
    const unspoken = value.length > 1 ? question.alone : [];
    return {
      seen: counted,
      notSeen: question.answers.filter((a) => !value.includes(a) && !unspoken.includes(a)),
    };
  }
  if (!question.bands) return { seen: [], notSeen: [] };
  if (typeof value === 'string')
    return { seen: question.answers.includes(value) ? [value] : [], notSeen: [] };
  const fields: Record<string, unknown> =
    typeof value === 'object' && value !== null ? { ...value } : { value };
  const seen: string[] = [];
  const notSeen: string[] = [];
  for (const [field, bands] of Object.entries(question.bands)) {
    const reading = fields[field];
    if (reading === undefined) continue;
    const hit = bands.find((band) =>
      typeof reading === 'number'
        ? reading >= (band.atLeast ?? Number.NEGATIVE_INFINITY) &&
          reading < (band.below ?? Number.POSITIVE_INFINITY)
        : band.answer === reading || band.answer.endsWith(`-${reading}`),
    );
    if (hit) seen.push(hit.answer);
    notSeen.push(...bands.filter((band) => band !== hit).map((band) => band.answer));
  }
  const possible = new Set(question.answers);
  return {
    seen: seen.filter((a) => possible.has(a)),
    notSeen: notSeen.filter((a) => possible.has(a) && !seen.includes(a)),
  };
}
