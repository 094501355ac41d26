import { fill } from '../diagnosis/say.ts';
import type { WorkState } from './state.ts';
import { conditionNames, type WorkWords } from './words.ts';

/**
 * Why an event was not taken, in words.
 * @param holes the plant's own figures, as in the steps
 * @param time when the step's wait is over, as the reader writes times; empty where it has none
 */
export function refusalText(
  { why, needs }: NonNullable<WorkState['refused']>,
  words: WorkWords,
  { gas = '' }: Readonly<Record<string, string>>,
  time: string,
): string {
  const key = `refused-${why}`;
  const named = conditionNames(needs, words).join(', ');
  return fill(words.phrases[key] ?? key, { needs: named, gas, time });
}
