import { expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();

/** A sound pump would give 50 m with all taps shut, well over the 4.2 bar it is set to; invented. */
const plant = parsePlant({
  name: 'Fernhollow annexe',
  line: [
    { id: 'tank', kind: 'tank' },
    {
      ...{ id: 'pump', kind: 'pump', control: { kind: 'variable-speed', setBar: 4.2 } },
      curve: [
        { flowLpm: 0, headM: 50 },
        { flowLpm: 40, headM: 38 },
        { flowLpm: 70, headM: 12 },
      ],
    },
    { id: 'G1', kind: 'gauge' },
    { id: 'sed', kind: 'filter', medium: 'sediment' },
    { id: 'G2', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
});

it.each([2.9, 3.1, 3.3, 3.5, 3.7])(
  'a drive that rests at %d bar, under its set pressure, has a worn pump',
  (bar) => {
    const answers = [
      { question: 'danger', value: [] },
      { question: 'complaint', value: ['weak'] },
      { question: 'onset', value: 'gradual' },
      { question: 'readings', value: { taps: 'closed', bar: { G1: bar, G2: bar } } },
    ];
    const { causes } = diagnose({ plant, answers }, rules, words.en!, '2026-11-25');
    expect(causes[0]?.id).toBe('pump-worn');
    expect(causes[0]?.probability).toBeGreaterThan(0.5);
  },
);
