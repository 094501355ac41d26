import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { act, fact, step, stepAnswer } from '../../shared/work/schema.ts';

const page = readFileSync('docs/work.md', 'utf8');

it.each([
  ['acts', act.options],
  ['facts that a condition claims', fact.options],
  ['what an answer shows, and by what', shownWords()],
  ['features of a plant', Object.keys(step.shape.when.unwrap().shape)],
])('docs/work.md names all %s', (_, words) => {
  expect(words.length).toBeGreaterThan(5);
  expect(words.filter((word) => !page.includes(`\`${word}\``))).toEqual([]);
});

function shownWords(): string[] {
  const { by, fact: shown } = stepAnswer.shape.shows.unwrap().shape;
  return [...by.options, ...shown.options];
}
