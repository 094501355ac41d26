import { expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { look } from '../../web/brain/look.ts';
import { isTooEarly } from '../../web/ranking/too-early.ts';

const { ruleSet: rules, words } = latestRuleSet();
const plant = readyMade.find(({ id }) => id === 'two-stages')?.plant;

const early = (...given: readonly (readonly [string, unknown, string])[]): boolean => {
  if (!words.en || !plant) throw new Error('no words');
  const answers = given.map(([question, value, day]) => ({
    ...{ question, value, at: `${day}T10:00:00+01:00` },
  }));
  const units = { pressure: 'bar', volume: 'L', language: 'en' } as const;
  const now = { plant, answers, audience: 'householder', day: '2026-12-20', units } as const;
  return isTooEarly(look({ rules, words: words.en }, now));
};

const done = [
  ['danger', [], '2026-11-20'],
  ['household', [], '2026-11-20'],
  ['complaint', ['weak'], '2026-11-20'],
  ['work-done', { job: 'change-sediment', parts: ['sediment'] }, '2026-11-20'],
] as const;

it('nothing is decided before what is wrong is told, and no longer once it is, also after work', () => {
  expect(early(['danger', [], '2026-12-20'])).toBe(true);
  expect(early(...done.slice(0, 3))).toBe(false);
  expect(early(...done)).toBe(true);
  expect(early(...done, ['complaint', ['pump-restless'], '2026-12-20'])).toBe(false);
});
