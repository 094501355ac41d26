import { expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { look } from '../../web/brain/look.ts';

const { ruleSet: rules, words } = latestRuleSet();
const plant = readyMade.find(({ id }) => id === 'two-stages')?.plant;

function others(pump: string): string[] {
  if (!words.en || !plant) throw new Error('no words');
  const answers = [{ question: 'pump-open', value: pump }];
  const units = { pressure: 'bar', volume: 'L', language: 'en' } as const;
  const now = { plant, answers, audience: 'technician', day: '2026-11-25', units } as const;
  return look({ rules, words: words.en }, now).others.map(({ key }) => key);
}

it('what needs a running pump is not offered once the pump was told to be switched off at once', () => {
  const needRunning = [
    'readings closed',
    'readings open 1',
    'pump-sound',
    'flow',
    'suction-vacuum',
  ];
  const steady = others('steady');
  const dry = others('runs-dry');
  for (const key of needRunning) {
    expect(steady).toContain(key);
    expect(dry).not.toContain(key);
  }
  // it is offered to be told otherwise, and what is seen without running it stays
  expect(dry).toContain('pump-open');
  expect(dry).toContain('tank-level');
});
