import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { latestRuleSet, readFiles, rulesFolder } from '../../src/rules/read.ts';
import { readWork } from '../../shared/work/read.ts';
import { loadWorkWords } from '../../shared/work/words.ts';

/** The newest rule set as the program reads it, with its job sheets and their words. */
export const { ruleSet: rules, words: allWords, files } = latestRuleSet();
export const { work, placed, findings } = readWork(files);
export const workWords = loadWorkWords(files, 'en');
export const words = allWords.en!;

/** The same files with one text changed, for job sheets that are wrong on purpose. */
export function changed(file: string, from: string | RegExp, to: string) {
  const text = files[file] ?? readFileSync(join(rulesFolder(), file), 'utf8');
  const after = text.replace(from, to);
  if (after === text) throw new Error(`${file} has no ${from}`);
  return { ...files, [file]: after };
}
export { readFiles };
