import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();

/** What is asked of somebody who says of everything further that they do not know. */
function askedAfter(pumpOpen: string): string[] {
  const answers = Object.entries({
    ...{ danger: [], household: [], complaint: ['no-water'], onset: 'sudden', 'recent-work': [] },
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

describe('a pump that is to be switched off at once', () => {
  it.each(['hums', 'runs-dry'])('is not watched with all taps shut after "%s"', (told) => {
    expect(askedAfter(told)).not.toContain('pump-closed');
  });

  it('is watched where it starts and stops', () => {
    expect(askedAfter('cycles-fast')).toContain('pump-closed');
  });
});
