import { expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { look } from '../../web/brain/look.ts';

const { ruleSet: rules, words } = latestRuleSet();
const plantOf = (wanted: string) => readyMade.find(({ id }) => id === wanted)?.plant as Plant;

it('the list of answers says which do not count since the plant was corrected', () => {
  const answers = [
    { question: 'complaint', value: ['weak'] },
    { question: 'pump-open', value: 'silent' },
  ];
  const units = { pressure: 'bar', volume: 'L', language: 'en' } as const;
  const now = {
    plant: plantOf('two-stages'),
    audience: 'agent',
    day: '2026-12-20',
    units,
  } as const;
  const listed = (...corrected: readonly string[]) =>
    look(
      { rules, words: words.en! },
      {
        ...now,
        answers: [
          ...answers,
          ...corrected.map((id) => ({ question: 'plant', value: plantOf(id) })),
        ],
      },
    ).earlier.map(({ text }) => text);
  const [complaint, pump] = listed();
  expect(listed('gravity')).toEqual([complaint, expect.stringMatching(/does not count/)]);
  expect(listed('gravity')[1]).toContain(pump);
  expect(listed('gravity', 'two-stages')).toEqual([complaint, pump]);
});
