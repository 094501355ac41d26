import { describe, expect, it } from 'vitest';
import { readUpkeepRules } from '../../shared/upkeep/rules.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { files, ruleSet, rules } from './tables.ts';

const { words } = latestRuleSet();
const text = files['upkeep.yaml'] ?? '';
const findingsWith = (from: string | RegExp, to: string) =>
  readUpkeepRules({ ...files, 'upkeep.yaml': text.replace(from, to) }, ruleSet).findings;

describe('the upkeep tables', () => {
  it('are whole as shipped', () => {
    expect(findingsWith('', '')).toEqual([]);
  });

  it.each([
    ['a job that is not there', 'job: change-membrane', 'job: change-membrne', 'change-membrne'],
    ['a field mistyped', 'daysBefore', 'dayBefore', 'dayBefore'],
    ['a share over one', 'headShare: 0.85', 'headShare: 85', 'headShare'],
    ['a place that is not there', 'in: vessel', 'in: vesel', 'vesel'],
    ['a text for a number', 'hours: 9000', 'hours: long', 'hours'],
  ])('are refused at the line of %s', (_, from, to, named) => {
    const [finding] = findingsWith(from, to);
    expect(finding?.message).toContain(named);
    const line = text.slice(0, text.indexOf(from)).split('\n').length;
    expect(finding?.line).toBe(line);
  });

  it('that are missing are asked for', () => {
    const { 'upkeep.yaml': _, ...rest } = files;
    expect(readUpkeepRules(rest, ruleSet).findings[0]?.message).toContain('missing');
  });

  it.each(Object.keys(words))('have words for every inspection in %s', (language) => {
    const phrases = words[language]?.phrases ?? {};
    for (const { id } of rules.inspections) {
      expect(phrases[`due-inspection-${id}`]).toBeTruthy();
      expect(phrases[`due-inspection-${id}-first`]).toBeTruthy();
      expect(phrases[`due-inspection-${id}-new`]).toBeTruthy();
    }
  });

  it('look at a rainwater tank at least every 6 months and at its sludge every 2 to 3 years (enHealth, Guidance on use of rainwater tanks, sections 6 and 5.8)', () => {
    const months = (id: string) => rules.inspections.find((one) => one.id === id)?.months ?? 0;
    expect(months('tank')).toBeLessThanOrEqual(6);
    expect(months('sludge')).toBeGreaterThanOrEqual(24);
    expect(months('sludge')).toBeLessThanOrEqual(36);
  });
});
