import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadWorkWords } from '../../shared/work/words.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { readUiWords } from '../../web/build/ui-words.ts';

const { ruleSet, words, files } = latestRuleSet();

/** All code that may say a phrase, and the tables, which name some by their ids. */
const code = ['src', 'shared', 'web']
  .flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((path) => /\.(tsx?|css|html)$/.test(path))
      .map((path) => readFileSync(join(folder, path), 'utf8')),
  )
  .join('\n');
const tables = Object.entries(files)
  .filter(([path]) => !path.startsWith('words/'))
  .map(([, text]) => text)
  .join('\n');

/** Words that stand in the code as they are: 'setup-title', or as a part that is put together: `kind-${kind}`. */
const whole = new Set([...`${code}\n${tables}`.matchAll(/[\w-]+/g)].map(([word]) => word));
const starts = [...code.matchAll(/`([a-z]\w*-[\w-]*)\$\{/g)].map(([, start]) => start ?? '');

const isUsed = (key: string): boolean =>
  whole.has(key) || starts.some((start) => key.startsWith(start));

describe.each(ruleSet.head.languages)('the words in %s', (language) => {
  it('hold no phrase that nothing says', () => {
    const screens = Object.keys(readUiWords(files, language));
    const said = [...Object.keys(words[language]?.phrases ?? {}), ...screens];
    const unused = said.filter((key) => !isUsed(key));
    expect(unused).toEqual([]);
  });

  it('hold nothing twice: what terminal and screens say alike stands with the phrases of both', () => {
    const screens = readUiWords(files, language);
    const { phrases } = loadWorkWords(files, language);
    const alike = [phrases, words[language]?.phrases ?? {}].flatMap((other) =>
      Object.keys(other).filter((key) => other[key] === screens[key]),
    );
    expect(alike).toEqual([]);
  });

  it('hold no part for the van that no job loads', () => {
    const loaded = new Set(Object.values(ruleSet.jobs).flatMap(({ van }) => van));
    expect(Object.keys(words[language]?.van ?? {}).filter((part) => !loaded.has(part))).toEqual([]);
  });
});
