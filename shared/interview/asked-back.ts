import type { Hearing } from './heard.ts';
import { isOneWord, match, meantWords, type Option, plain, wordsSaid } from './match.ts';
import { spellingOf, withoutSlips } from './slips.ts';

/** With more words than these a line that one word of it answers may tell of something else. */
const MOST_WORDS = 4;

/** Whether a line speaks for the options by one word of many. */
export const isThin = (line: string, options: readonly Option[], words: Hearing): boolean =>
  meantWords(line, words).length > MOST_WORDS &&
  options.every((option) => isOneWord(line, option, words));

/** What a line that was not understood may say, its slips of the finger mended. */
export function meantBySlips(line: string, options: readonly Option[], words: Hearing): Option[] {
  const wanted = options.flatMap((option) => wordsSaid(option, words));
  const spelling = spellingOf([...words.spelling().known], wanted);
  const mended = withoutSlips(plain(line).split(' '), spelling).join(' ');
  return mended === plain(line) ? [] : [...match(mended, options, words).options];
}
