import { describe, expect, it } from 'vitest';
import { parseValue } from '../../shared/case/values.ts';
import { faultIds, InputError } from '../../shared/common/errors.ts';
import { faultText } from '../../shared/interview/fault-text.ts';
import { type Field, type Filled, formOf } from '../../shared/interview/form.ts';
import type { Step } from '../../shared/interview/step.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { sayWith } from '../../web/common/say.ts';

const { ruleSet, words } = latestRuleSet();
const rules = ruleSet;
const [{ plant }] = [readyMade[4]] as [(typeof readyMade)[number]];

const errorOf = (run: () => unknown): InputError => {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('nothing was wrong');
};

const said = (error: InputError, language: 'en' | 'es', pressure: 'bar' | 'psi' = 'bar'): string =>
  faultText(error, sayWith(words[language]?.phrases ?? {}), { pressure, volume: 'L', language });

describe('what was typed wrong', () => {
  it.each(Object.keys(words))('has a sentence for each fault in "%s"', (language) => {
    const phrases = words[language]?.phrases ?? {};
    expect(faultIds.filter((id) => !phrases[`wrong-${id}`])).toEqual([]);
  });

  it('is told in the language and unit of who typed it, with every hole filled', () => {
    const line = [
      {
        id: 'pump',
        kind: 'pump',
        control: { kind: 'pressure-switch', cutInBar: 4, cutOutBar: 3.5 },
      },
      { id: 'house', kind: 'house' },
    ];
    const error = errorOf(() => parsePlant({ name: 'Fernhollow', line }));
    expect(said(error, 'es', 'psi')).toBe(
      'La presión a la que arranca, 58 psi, debe ser menor que aquella a la que para, 50,8 psi.',
    );
    expect(said(error, 'en')).toContain('4 bar, must be under the one at which it stops, 3.5 bar');
    expect(error.message).toBe('cut-in 4 bar must be under cut-out 3.5 bar');
  });

  /** Too little, nothing, far too much: what a figure can be that is none; and a day that has not come. */
  const figures = [-2e9, -5, 0, 2e9];
  const wrongs = (field: Field): readonly Filled[] => {
    if (field.kind === 'figure') return figures;
    if (field.kind === 'one' && field.orFigure) return figures;
    if (field.kind === 'day') return ['2031-01-01'];
    return field.kind === 'many' ? [[]] : [];
  };
  const right = (field: Field): Filled => {
    if (field.kind === 'figure') return 1;
    if (field.kind === 'one') return field.options[0]?.id ?? null;
    return field.kind === 'many' ? field.options.slice(0, 1).map(({ id }) => id) : null;
  };
  const steps: Step[] = Object.entries(rules.questions).map(([question, { kind }]) =>
    kind === 'readings' ? { question, taps: { open: 1 } } : { question },
  );
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);

  it('is never told in the words of files, whatever figure or day is put into a form', () => {
    const told: string[] = [];
    for (const step of steps) {
      const phrases = words.es?.phrases ?? {};
      const form = formOf(step, { gauges }, plant, rules, words.es as never, sayWith(phrases));
      for (const field of form.fields) {
        for (const wrong of wrongs(field)) {
          const filled = Object.fromEntries(form.fields.map((one) => [one.key, right(one)]));
          const value = form.valueOf({ ...filled, [field.key]: wrong });
          try {
            parseValue(step.question, value, rules, plant, '2026-11-25', step.question);
          } catch (error) {
            if (!(error instanceof InputError)) throw error;
            expect(
              error.fault,
              `${step.question} ${field.key} ${wrong}: ${error.message}`,
            ).toBeDefined();
            expect(said(error, 'es')).not.toMatch(/[{}]/);
            told.push(said(error, 'es'));
          }
        }
      }
    }
    expect(new Set(told).size).toBeGreaterThan(6);
  });
});
