import { expect, test } from 'vitest';
import type { Answer } from '../../shared/case/answer.ts';
import { entryOf } from '../../shared/work/entry.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet } = latestRuleSet();
const read = (taps: unknown, bar: unknown): Answer => ({
  question: 'readings',
  value: { taps, bar } as Answer['value'],
});
const closed = read('closed', { G1: 3.1 });
const one = read({ open: 1 }, { G1: 2.2 });

test.each<[string, readonly Answer[], unknown]>([
  ['one tap when nothing was read with water running', [closed], { open: 1 }],
  ['the latest tap read', [one, read({ open: ['bath'] }, { G1: 2 })], { open: ['bath'] }],
  ['not the one nobody could read', [one, read({ open: 2 }, 'unknown')], { open: 1 }],
  ['not the gauges read with all shut', [one, closed], { open: 1 }],
])('the same tap proves the work: %s', (_, answers, taps) => {
  const step = { input: 'readings-open', question: null } as const;
  expect(entryOf(step, answers, ruleSet)).toEqual({ question: 'readings', taps });
});

test("a test's figure is asked for as the question that it answers", () => {
  const step = { input: 'value', question: 'precharge' } as const;
  expect(entryOf(step, [], ruleSet)).toEqual({ question: 'precharge' });
});
