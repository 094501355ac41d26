import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();

/** What is asked of somebody who says of everything further that they do not know. */
function askedAfter(pumpOpen: string, complaint = 'no-water'): string[] {
  const answers = Object.entries({
    ...{ danger: [], household: [], complaint: [complaint], onset: 'sudden', 'recent-work': [] },
    'pump-open': pumpOpen,
  }).map(([question, value]: [string, unknown]) => ({ question, value }));
  const asked: string[] = [];
  for (let i = 0; i < 30; i++) {
    const { next } = diagnose({ plant: fernhollow, answers }, rules, words.en!, '2026-11-25');
    if (!next) return asked;
    asked.push(next.question);
    answers.push({ question: next.question, value: 'unknown' });
  }
  return asked;
}

/** What needs the pump to run, or water to come out of a tap. */
const needsWater = [
  ...['pump-closed', 'pump-sound', 'readings', 'flow', 'cycle-times', 'suction-vacuum', 'shut-off'],
  ...['air-seen', 'aerator-compare', 'first-draw', 'empty-housing', 'pressure-hold'],
];

describe('a pump that is to be switched off at once', () => {
  it.each([
    ['hums', 'no-water'],
    ['hums', 'weak'],
    ['runs-dry', 'no-water'],
    ['runs-dry', 'noise'],
    ['runs-dry', 'weak'],
  ])('is not run again to be heard or measured after "%s", told with "%s"', (told, complaint) => {
    const asked = askedAfter(told, complaint);
    expect(asked.filter((question) => needsWater.includes(question))).toEqual([]);
    // what can be told with the pump off is asked all the same
    expect(asked.length).toBeGreaterThan(0);
  });

  it('is watched where it starts and stops', () => {
    expect(askedAfter('cycles-fast')).toContain('pump-closed');
  });
});

it('where no water comes nobody is asked how it tastes', () => {
  for (const told of ['hums', 'runs-dry', 'silent'])
    expect(askedAfter(told)).not.toContain('taste');
  expect(askedAfter('steady', 'taste')).toContain('taste');
});
