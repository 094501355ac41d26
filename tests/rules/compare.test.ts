import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { tail } from '../../src/rules/accuracy.ts';
import { compareRules } from '../../src/rules/compare.ts';
import { makeDraft, publish } from '../../src/rules/draft.ts';
import { wilson } from '../../src/rules/learn.ts';
import { readRuleSet } from '../../src/rules/read.ts';
import { findingsOfSeal } from '../../src/rules/seal.ts';
import { draftWith, folder, newest, tidy } from './drafts.ts';

afterAll(tidy);
const wanted = { cases: [], worlds: 0 };

describe('rules compare', () => {
  it('tells one changed word and exactly what it does', () => {
    const draft = draftWith([
      'questions/equipment.yaml',
      'outlet-restricted: { better-without: almost always }',
      'outlet-restricted: { better-without: seldom }',
    ]);
    const { differences, changes } = compareRules(readRuleSet(newest), readRuleSet(draft), wanted);
    expect(differences).toEqual([
      {
        at: 'questions › aerator-compare › table › outlet-restricted › better-without',
        was: 'almost always (0.95)',
        is: 'seldom (0.05)',
      },
    ]);
    const moved = changes.filter(({ moved: { was, is } }) => Math.abs(was - is) > 0.005);
    expect(moved.map(({ name }) => name)).toEqual(['one-weak-tap']);
    expect(moved[0]!.moved.cause).toBe('outlet-restricted');
  });

  it('finds nothing changed by remarks and layout', () => {
    const draft = draftWith(['jobs.yaml', 'change-sediment:', '# a remark\nchange-sediment:']);
    expect(compareRules(readRuleSet(newest), readRuleSet(draft), wanted).differences).toEqual([]);
  });
});

describe('drafts and publishing', () => {
  const options = { against: newest, worlds: 0, quick: true };

  it('publishes a sound draft with a reason, seals it, and finds what is changed afterwards', () => {
    const draft = join(folder(), '2027-01-15');
    makeDraft('2027-01-15', newest, draft);
    const into = folder();
    const refused = publish(draft, { ...options, into, reason: null });
    expect(refused.refused).toContain('accuracy was not measured');
    expect(existsSync(join(into, '2027-01-15'))).toBe(false);
    expect(publish(draft, { ...options, into, reason: 'tried by hand' }).refused).toBeNull();
    const published = join(into, '2027-01-15');
    expect(findingsOfSeal(published)).toEqual([]);
    writeFileSync(join(published, 'jobs.yaml'), '# changed\n');
    expect(findingsOfSeal(published).map(({ file }) => file)).toEqual(['jobs.yaml']);
  });

  it('refuses a draft with something to mend, whatever the reason', () => {
    const draft = draftWith(['jobs.yaml', 'by: householder', 'by: housholder']);
    const { refused } = publish(draft, { ...options, into: folder(), reason: 'because' });
    expect(refused).toContain('something to mend');
  });
});

describe('counting', () => {
  // E. B. Wilson 1927 by Brown, Cai & DasGupta 2001 (Stat. Sci. 16, 101): computed by the closed form, from memory
  it.each([
    [0, 10, 0, 0.2775],
    [5, 10, 0.2366, 0.7634],
  ])('%i of %i lies between %f and %f', (seen, of, low, high) => {
    expect(wilson(seen, of)[0]).toBeCloseTo(low, 3);
    expect(wilson(seen, of)[1]).toBeCloseTo(high, 3);
  });

  it('takes the tail of fair coins exactly', () => {
    expect(tail(3, 3)).toBe(1 / 8);
    expect(tail(2, 3)).toBe(1 / 2);
    expect(tail(0, 5)).toBe(1);
  });
});
