import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import { latestRuleSet } from '../../src/rules/read.ts';

/**
 * Householder texts stay at or under United States school grade 8 by the Flesch–Kincaid formula (Kincaid, Fishburne,
 * Rogers & Chissom 1975), computed by the text-readability library.
 */
const LIMIT = 8;
const { causes, questions, jobs, cautions, dangers } = latestRuleSet().words.en!;

const texts: readonly (readonly [string, string])[] = [
  ...Object.entries(causes).map(([id, words]) => [`cause ${id}`, words.says.householder] as const),
  ...Object.entries(questions).flatMap(
    ([id, words]) =>
      [
        [`question ${id}`, words.ask.householder],
        [`why ${id}`, words.why],
      ] as const,
  ),
  ...Object.entries(jobs).map(([id, words]) => [`job ${id}`, words.lookFor.householder] as const),
  ...Object.entries(cautions).map(([id, words]) => [`caution ${id}`, words.householder] as const),
  ...Object.entries(dangers).map(
    ([id, words]) => [`danger ${id}`, words.call.householder] as const,
  ),
];

describe(`a householder reads every text at grade ${LIMIT} or lower`, () => {
  it.each(texts)('%s', (_what, text) => {
    expect(readability.fleschKincaidGrade(text)).toBeLessThanOrEqual(LIMIT);
  });

  it('a text that is too hard would be found', () => {
    const hard =
      'Notwithstanding differential hydraulic deterioration, comprehensive reconfiguration necessitates professional intervention.';
    expect(readability.fleschKincaidGrade(hard)).toBeGreaterThan(LIMIT);
  });
});
