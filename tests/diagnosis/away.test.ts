import { expect, it } from 'vitest';
import type { Audience } from '../../shared/case/answer.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import type { NextQuestion } from '../../shared/diagnosis/result.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { twoGauges } from '../two-gauges.ts';

/** A caller who is at work while the water is weak at home, under the rule set itself. */
const { ruleSet, words } = latestRuleSet();
const { en } = words;
if (!en) throw new Error('the rule set speaks no English');

type Answers = readonly { readonly question: string; readonly value: unknown }[];
const told: Answers = [
  { question: 'danger', value: [] },
  { question: 'household', value: [] },
  { question: 'complaint', value: ['weak', 'smell'] },
];
const away = { question: 'caller', value: 'away' };

const nextOf = (answers: Answers, audience: Audience) =>
  diagnose({ plant: twoGauges, answers, audience }, ruleSet, en, '2026-12-01').next;

/** The whole interview with somebody who knows nothing. */
function askedOf(first: Answers, audience: Audience): NextQuestion[] {
  const answers: { question: string; value: unknown }[] = [...first];
  const asked: NextQuestion[] = [];
  for (;;) {
    const next = nextOf(answers, audience);
    if (!next) return asked;
    asked.push(next);
    const value = next.ask ? { taps: next.ask.taps, bar: 'unknown' } : 'unknown';
    answers.push({ question: next.question, value });
  }
}
const ids = (asked: readonly NextQuestion[]) => asked.map(({ question }) => question);
const needsSomebody = ({ question }: NextQuestion) => ruleSet.questions[question]?.atPlant === true;

it('a caller who is not at the plant is asked nothing that only somebody there can answer', () => {
  const there = askedOf(told, 'agent');
  const elsewhere = askedOf([...told, away], 'agent');
  expect(ids(there)).toEqual(expect.arrayContaining(['readings', 'flow']));
  expect(elsewhere.filter(needsSomebody)).toEqual([]);
  // what can be told from afar is asked as before
  expect(ids(elsewhere)).toEqual(expect.arrayContaining(['onset', 'smell', 'scope']));
  expect(ids(elsewhere)).toEqual(ids(there.filter((one) => !needsSomebody(one))));
});

it('what was smelt is asked of them in words that send nobody to the tap', () => {
  const text = (first: Answers) =>
    askedOf(first, 'agent').find(({ question }) => question === 'smell')?.text;
  expect(text(told)).toBe(en.questions.smell?.ask.agent);
  expect(text([...told, away])).toBe(en.questions.smell?.afar);
});

it('once somebody is there the rest is asked, and nothing told before is lost', () => {
  const since = { question: 'caller', value: 'at-plant' };
  expect(ids(askedOf([...told, away, since], 'agent'))).toEqual(ids(askedOf(told, 'agent')));
});

it('it is a fact of the call: who answers for themselves or was sent is asked all', () => {
  for (const audience of ['householder', 'technician'] as const)
    expect(ids(askedOf([...told, away], audience))).toEqual(ids(askedOf(told, audience)));
});

it('where the caller is, is asked by nobody unbidden', () => {
  expect(ids(askedOf([], 'agent'))).not.toContain('caller');
});
