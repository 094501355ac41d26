import { expect, it } from 'vitest';
import { findingsOfSynonyms } from '../../src/rules/check-synonyms.ts';
import { readFiles } from '../../src/rules/read.ts';

const look = (...answers: string[]) =>
  findingsOfSynonyms({
    'words/en/questions.yaml': `questions:\n  look:\n    answers:\n      ${answers.join('\n      ')}\n`,
  });

it('finds words that are said for one answer and are the label of another, at their line', () => {
  expect(
    look('clear: { label: Clear }', 'milky: { label: Milky, alsoSaid: [white, Clear!] }'),
  ).toEqual([
    {
      file: 'words/en/questions.yaml',
      line: 5,
      message: 'look: "Clear!" is said for milky and for clear',
      mend: 'leave it with one of them',
      advice: true,
    },
  ]);
});

it('finds words that are said for two answers', () => {
  const found = look(
    'brown: { label: Brown, alsoSaid: [dirty] }',
    'milky: { label: Milky, alsoSaid: [dirty, milk] }',
  );
  expect(found.map(({ message }) => message)).toEqual([
    'look: "dirty" is said for milky and for brown',
  ]);
});

it('finds none in the rule set that comes with it', () => {
  expect(findingsOfSynonyms(readFiles('rules/2026-12-01'))).toEqual([]);
});
