import { expect, it } from 'vitest';
import { latestRuleSet } from '../../src/rules/read.ts';
import { tried } from '../cli/world.ts';

it('a rule set is read with its words in every language, or in the one that is wanted alone', () => {
  const all = latestRuleSet();
  expect(Object.keys(all.words)).toEqual(all.ruleSet.head.languages);
  const { ruleSet, words } = latestRuleSet('es');
  expect(ruleSet).toEqual(all.ruleSet);
  expect(words).toEqual({ es: all.words.es });
});

it('a language without words is told those there are', async () => {
  const { code, err } = await tried(['chlorine', '--language', 'fr']);
  expect([code, err]).toEqual([2, '--language: no words in "fr"; those there: en, es\n']);
});
