import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tapsKey } from '../../shared/case/taps.ts';
import { parseValue } from '../../shared/case/values.ts';
import { fill } from '../../shared/diagnosis/say.ts';
import { answerText } from '../../shared/interview/answer-text.ts';
import { type Field, type Filled, formOf } from '../../shared/interview/form.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words: spoken } = latestRuleSet();
const words = spoken.en!;
const say = (key: string, holes = {}) => {
  const phrase = words.phrases[key];
  if (phrase === undefined) throw new Error(`no phrase "${key}"`);
  return fill(phrase, holes);
};
const gauges = fernhollow.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
const formFor = (question: string) => {
  const taps = rules.questions[question]!.kind === 'readings' ? ({ open: 1 } as const) : undefined;
  const step = taps ? { question, taps } : { question };
  return { step, form: formOf(step, { gauges }, fernhollow, rules, words, say) };
};

function rangeOf({ key }: Field, question: string): { min: number; max: number } {
  if (rules.questions[question]?.kind === 'vacuum') return { min: -1, max: 0 };
  return { min: 0.1, max: key === 'bar' ? 1.9 : 6 };
}

/** Anything a person can fill a field with. */
function fillings(field: Field, question: string): fc.Arbitrary<Filled> {
  const known = (): fc.Arbitrary<Filled> => {
    switch (field.kind) {
      case 'one':
        return fc.constantFrom(...field.options.map(({ id }) => id));
      case 'many':
        return fc.subarray(
          field.options.map(({ id }) => id),
          { minLength: 1 },
        );
      case 'figure':
        return fc.double({ ...rangeOf(field, question), noNaN: true });
      case 'day':
        return fc.constantFrom('2026-03-01', '2025-12-31');
      case 'note':
        return fc.string();
    }
  };
  return field.mayBeLeftOut ? fc.oneof(known(), fc.constant(null)) : known();
}

describe.each(Object.keys(rules.questions))('the form of "%s"', (question) => {
  const { step, form } = formFor(question);

  it('gives an answer that the case accepts, however it is filled in', () => {
    const filled = fc.record(
      Object.fromEntries(form.fields.map((field) => [field.key, fillings(field, question)])),
    );
    fc.assert(
      fc.property(filled, (values) => {
        const value = form.valueOf(values);
        expect(() =>
          parseValue(question, value, rules, fernhollow, '2026-03-01', 'value'),
        ).not.toThrow();
        const shown = answerText({ step, value }, rules, words, siUnits);
        expect(shown).not.toContain('[object');
        expect(shown.length).toBeGreaterThan(0);
      }),
      { seed: 7, numRuns: 50 },
    );
  });
});

describe('gauge readings', () => {
  const { form, step } = formFor('readings');

  it('ask for every gauge, and whether the pump runs when a tap is open', () => {
    expect(form.fields.map(({ key }) => key)).toEqual([...gauges.map((g) => `bar ${g}`), 'pump']);
    expect(tapsKey(step.taps!)).toBe('open 1');
  });

  it('with no gauge legible, say that this tap state cannot be read', () => {
    expect(form.valueOf({})).toEqual({ taps: { open: 1 }, bar: 'unknown' });
  });

  it('leave open the one gauge that is not legible', () => {
    expect(form.valueOf({ 'bar G1': 3.4, 'bar G2': null, pump: 'on' })).toEqual({
      taps: { open: 1 },
      bar: { G1: 3.4, G2: 'unknown', G3: 'unknown', G4: 'unknown' },
      pump: 'on',
    });
  });
});
