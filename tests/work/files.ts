import { readWork } from '../../shared/work/read.ts';
import { loadWorkWords } from '../../shared/work/words.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

/** The newest rule set as the program reads it, with its job sheets and their words. */
const { ruleSet: rules, words: allWords, files } = latestRuleSet();

export { files, rules };
export const { work, placed } = readWork(files);
export const workWords = loadWorkWords(files, 'en');
export const words = allWords.en!;

export type Edit = readonly [file: string, from: string | RegExp, to: string];

/** The same files with some texts changed, for job sheets that are wrong on purpose. */
export function changed(edits: readonly Edit[]) {
  const after: Record<string, string> = { ...files };
  for (const [file, from, to] of edits) {
    const text = after[file] ?? '';
    after[file] = text.replace(from, to);
    if (after[file] === text) throw new Error(`${file} has no ${from}`);
  }
  return after;
}
