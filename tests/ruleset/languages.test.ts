import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { latestRuleSet } from '../../src/rules/read.ts';

/** Every word file of every language against the first language's: same files, keys, holes and Markdown. */
const { files, ruleSet } = latestRuleSet();
const [first = 'en', ...others] = ruleSet.head.languages;

type Texts = ReadonlyMap<string, string>;

/** Texts of one word file by the keys that lead to them; lists (other ways of saying it) are each language's own. */
function textsOf(value: unknown, at: readonly string[] = []): Texts {
  if (typeof value === 'string') return new Map([[at.join(' › '), value]]);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return new Map();
  return new Map(Object.entries(value).flatMap(([key, one]) => [...textsOf(one, [...at, key])]));
}

/** What code or a reader's eye relies on: the holes, emphasis, list items, links and line breaks of a text. */
function marksOf(text: string): readonly string[] {
  return [
    ...(text.match(/\{\w+\}/g) ?? []).toSorted(),
    ...(text.match(/\*\*|`|\]\(|^\s*(?:[-*#]|\d+\.)\s/gm) ?? []),
    ...(text.includes('\n') ? ['line break'] : []),
  ];
}

const wordFiles = (language: string) =>
  Object.keys(files)
    .filter((file) => file.startsWith(`words/${language}/`))
    .map((file) => file.slice(`words/${language}/`.length))
    .sort();

const textsIn = (language: string, file: string) =>
  textsOf(parse(files[`words/${language}/${file}`] ?? ''));

describe.each(others)(`the words in %s beside those in ${first}`, (language) => {
  it('stand in the same files', () => {
    expect(wordFiles(language)).toEqual(wordFiles(first));
  });

  describe.each(wordFiles(first))('%s', (file) => {
    const here = textsIn(language, file);
    const there = textsIn(first, file);
    it('has the same keys', () => {
      expect([...here.keys()].sort()).toEqual([...there.keys()].sort());
    });
    it('has the same holes and Markdown in every text', () => {
      for (const [key, text] of here) {
        expect(marksOf(text), key).toEqual(marksOf(there.get(key) ?? ''));
      }
    });
  });
});
