import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { latestRuleSet } from '../../src/rules/read.ts';
import { readUiWords } from '../../web/build/ui-words.ts';

const web = join(import.meta.dirname, '../../web');
const { files, words, ruleSet } = latestRuleSet();
const english = readUiWords(files, 'en');
const sources = readdirSync(web, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
  .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'utf8'))
  .join('\n');

/** Keys said as they are, and the beginnings of keys that are put together. */
const said = new Set(
  [...sources.matchAll(/'([a-z0-9]+(?:-[a-z0-9]+)*)'/g)].map(([, key]) => key ?? ''),
);
const stems = [...sources.matchAll(/`([a-z0-9-]*-)\$\{/g)].map(([, stem]) => stem ?? '');
const calls = [...sources.matchAll(/\bsay\(\s*'([^']+)'/g)].map(([, key]) => key ?? '');

describe('the words of the screens', () => {
  test('are there for every key that a screen says', () => {
    const known = { ...words.en?.phrases, ...english };
    expect([...new Set(calls)].filter((key) => !(key in known))).toEqual([]);
  });

  test('are all said by some screen', () => {
    const unsaid = Object.keys(english).filter(
      (key) => !said.has(key) && !stems.some((stem) => key.startsWith(stem)),
    );
    expect(unsaid).toEqual([]);
  });

  test('are the same in every language, with the same holes', () => {
    const holes = (text: string): string[] => (text.match(/\{\w+\}/g) ?? []).sort();
    const shape = (spoken: Readonly<Record<string, string>>) =>
      Object.fromEntries(Object.entries(spoken).map(([key, text]) => [key, holes(text)]));
    for (const language of ruleSet.head.languages) {
      expect(shape(readUiWords(files, language)), language).toEqual(shape(english));
    }
  });

  test('say what every kind of part is and where to look for it', () => {
    const kinds = [
      'tank',
      'pump',
      'gauge',
      'sediment',
      'carbon',
      'membrane',
      'softener',
      'uv',
      'house',
      'mains',
    ];
    for (const kind of kinds) {
      expect(english[`about-${kind}`], kind).toBeTruthy();
      expect(english[`where-${kind}`], kind).toBeTruthy();
    }
  });
});

test('no component holds a sentence of its own', () => {
  const texts = [...sources.matchAll(/>\s*([A-Z][a-z]+(?: [a-z]+)+[.?!]?)\s*</g)].map(
    ([, text]) => text,
  );
  expect(texts).toEqual([]);
});

test('no text of the rule set carries markup, so screens may show it as it is', () => {
  const texts: string[] = [];
  const gather = (value: unknown): void => {
    if (typeof value === 'string') texts.push(value);
    else if (typeof value === 'object' && value !== null) Object.values(value).forEach(gather);
  };
  gather(words);
  expect(texts.length).toBeGreaterThan(500);
  expect(texts.filter((text) => /\*\*|<[a-z]|\]\(|^#+ |`/m.test(text))).toEqual([]);
});

test('every drawing that a job sheet names is drawn', () => {
  const named = new Set(
    Object.entries(files)
      .filter(([path]) => path.startsWith('work/'))
      .flatMap(([, text]) => [...text.matchAll(/drawing: ([a-z-]+)/g)].map(([, id]) => id ?? '')),
  );
  const drawn = readFileSync(join(web, 'work/step-drawing.tsx'), 'utf8');
  expect(named.size).toBeGreaterThan(5);
  for (const id of named) {
    expect(drawn, id).toMatch(new RegExp(`^  '?${id}'?:`, 'm'));
    expect(english[`drawing-${id}`], id).toBeTruthy();
  }
});
