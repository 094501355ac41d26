import { expect, it } from 'vitest';
import { countsOf, ENOUGH } from '../../src/rules/learn.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet } = latestRuleSet();
const proven = (n: number) =>
  Array.from({ length: n }, (_, i) => ({
    name: `case ${i}`,
    cause: 'sediment-blocked',
    answers: [{ question: 'complaint', value: ['noise'] }],
  }));
const weak = (n: number) => countsOf(proven(n), ruleSet).find(({ answer }) => answer === 'weak')!;

it('proposes a rarer word when enough proven cases never show the sign', () => {
  expect(weak(20)).toMatchObject({ seen: 0, of: 20, word: 'usually', proposed: 'hardly ever' });
});

it('proposes nothing from too few cases', () => {
  expect(weak(ENOUGH - 1).proposed).toBeNull();
});
