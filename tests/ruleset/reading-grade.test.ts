import readability from 'text-readability';
import { describe, expect, it } from 'vitest';
import type { Words } from '../../shared/ruleset/words.ts';
import { loadWorkWords } from '../../shared/work/words.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { perspicuity, syllablesOf } from './spanish.ts';

const { words, ruleSet, files } = latestRuleSet();

interface Measure {
  readonly name: string;
  readonly easyEnough: (text: string) => boolean;
  readonly hard: string;
}

/** How plainly a householder must be spoken to, by language; a language added to the rule set needs its own measure. */
const measures: Readonly<Record<string, Measure>> = {
  /**
   * United States school grade 8 or lower by the Flesch–Kincaid formula (Kincaid, Fishburne, Rogers & Chissom 1975),
   * computed by the text-readability library.
   */
  en: {
    name: 'Flesch–Kincaid grade 8 or lower',
    easyEnough: (text) => readability.fleschKincaidGrade(text) <= 8,
    hard: 'Notwithstanding differential hydraulic deterioration, comprehensive reconfiguration necessitates professional intervention.',
  },
  /** "Fairly easy" or easier on the INFLESZ scale (spanish.ts). */
  es: {
    name: 'INFLESZ 65 or higher',
    easyEnough: (text) => perspicuity(text) >= 65,
    hard: 'No obstante el deterioro hidráulico diferencial, la reconfiguración integral necesita intervención profesional.',
  },
};

/** What a householder reads, by what it is. */
function textsOf({ causes, questions, jobs, cautions, dangers }: Words): [string, string][] {
  return [
    ...Object.entries(causes).map(([id, one]) => [`cause ${id}`, one.says.householder] as const),
    ...Object.entries(questions).flatMap(
      ([id, one]) =>
        [
          [`question ${id}`, one.ask.householder],
          [`why ${id}`, one.why],
        ] as const,
    ),
    ...Object.entries(jobs).map(([id, one]) => [`job ${id}`, one.lookFor.householder] as const),
    ...Object.entries(cautions).map(([id, one]) => [`caution ${id}`, one.householder] as const),
    ...Object.entries(dangers).map(([id, one]) => [`danger ${id}`, one.call.householder] as const),
  ].map(([what, text]) => [what, text]);
}

/** Steps of the job sheets with their cautions, the part in a hole read as "the valve" would be. */
function stepsOf(language: string): [string, string][] {
  const stands: Readonly<Record<string, string>> = { en: 'the valve', es: 'la llave' };
  return Object.entries(loadWorkWords(files, language).steps)
    .flatMap(([id, { householder, caution }]) => [
      [id, householder] as const,
      ...(caution ? [[`${id} (caution)`, caution] as const] : []),
    ])
    .map(([id, text]) => [id, text.replaceAll(/\{\w+\}/g, stands[language] ?? 'x')]);
}

describe.each(ruleSet.head.languages)('a householder reads every text in %s easily', (language) => {
  const measure = measures[language]!;
  it.each(textsOf(words[language]!))(`${measure.name}: %s`, (_what, text) => {
    expect(measure.easyEnough(text), text).toBe(true);
  });

  it.each(stepsOf(language))(`${measure.name}: step %s`, (_what, text) => {
    expect(measure.easyEnough(text), text).toBe(true);
  });

  it('a text that is too hard would be found', () => {
    expect(measure.easyEnough(measure.hard)).toBe(false);
  });
});

/** Words divided by the rules of the RAE's Ortografía (2010); the division is mine. */
const divided =
  'de-pó-si-to guí-a a-gua hay que bom-ba pin-güi-no e-lec-tri-cis-ta ciu-dad muy o-ír buey le-í-a ca-er a-é-re-o cons-true';

describe('syllables of Spanish words', () => {
  it.each(divided.split(' '))('%s', (word) => {
    expect(syllablesOf(word.replaceAll('-', ''))).toBe(word.split('-').length);
  });
});
