import type { CaseNow } from './protocol.ts';

/** Two cases that differ only in the hour or the id of an answer are judged alike. */
export function keyOf({ plant, answers, audience, day, units }: CaseNow): string {
  return JSON.stringify([
    plant,
    answers.map(({ question, value, at }) => [question, value, at?.slice(0, 10) ?? day]),
    audience,
    day,
    units,
  ]);
}
