import { describe, expect, it } from 'vitest';
import { dropBetween } from '../../shared/hydraulics/gauge.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { findingsOfExamples } from '../../src/rules/run-examples.ts';
import { chanceOf, judgeCase } from './rules.ts';

const gauge = { rangeBar: 6, divisionBar: 0.1, classPercent: 1.6 };
const line = (more: object = {}) => [
  { id: 'tank', kind: 'tank' },
  { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 } },
  { id: 'vessel', kind: 'vessel', volumeL: 24, prechargeBar: 1.8 },
  { id: 'G1', kind: 'gauge', ...gauge, ...more },
  { id: 'sed', kind: 'filter', medium: 'sediment' },
  { id: 'G2', kind: 'gauge', ...gauge },
  { id: 'carbon', kind: 'filter', medium: 'carbon' },
  { id: 'G3', kind: 'gauge', ...gauge },
  { id: 'house', kind: 'house' },
];
const plant = { name: 'three gauges', line: line() };
const readings = (taps: unknown, ...bar: number[]) => ({
  question: 'readings',
  value: { taps, bar: Object.fromEntries(bar.map((value, i) => [`G${i + 1}`, value])) },
});
const answers = [
  { question: 'complaint', value: ['weak', 'pulsing'] },
  { question: 'onset', value: 'gradual' },
  readings('closed', 3.2, 3.1, 3.2),
  readings({ open: 1 }, 2.7, 1.4, 1.2),
  { question: 'look', value: 'brown' },
  { question: 'pump-closed', value: 'short-bursts' },
];

describe('the example cases of the rule set', () => {
  const read = latestRuleSet();
  const examples = Object.keys(read.files).filter((file) => file.startsWith('examples/'));
  it.each(examples)('%s come out as a technician would expect', (file) => {
    const files = Object.fromEntries(
      Object.entries(read.files).filter(([each]) => each === file || !examples.includes(each)),
    );
    const { run, findings } = findingsOfExamples({ ...read, files });
    expect(run).toBeGreaterThan(0);
    expect(findings).toEqual([]);
  });
});

describe('a reason', () => {
  const odds = (p: number) => Math.log(p / (1 - p));
  const whole = judgeCase(plant, answers);
  // Readings also take the place of soft answers, which stay replaced in a reason: they weigh by another sum.
  const questions = answers.map(({ question }) => question).filter((id) => id !== 'readings');

  it.each(questions)(
    '"%s" weighs what leaving the answer out takes from the odds of every cause',
    (question) => {
      const less = judgeCase(
        plant,
        answers.filter((answer) => answer.question !== question),
      );
      let told = 0;
      for (const { id, probability, reasons } of whole.causes) {
        const reason = reasons.find(({ finding }) => finding === question);
        if (!reason || chanceOf(less, id) < 1e-3 || probability < 1e-3) continue;
        told++;
        expect(reason.weight).toBeCloseTo(odds(probability) - odds(chanceOf(less, id)), 1);
      }
      expect(told).toBeGreaterThan(0);
    },
  );

  it('stands the weightier the further up', () => {
    for (const { reasons } of whole.causes) {
      const weights = reasons.map(({ weight }) => Math.abs(weight));
      expect(weights).toEqual([...weights].sort((a, b) => b - a));
    }
  });
});

describe('a segment', () => {
  const { segments } = judgeCase(plant, answers);
  it('is told between neighbouring gauges with what stands in it', () => {
    expect(segments.map(({ from, to, parts }) => [from, to, parts])).toEqual([
      ['G1', 'G2', ['sed']],
      ['G2', 'G3', ['carbon']],
    ]);
  });

  it.each([
    [0, [2.7, 1.4], [3.2, 3.1]],
    [1, [1.4, 1.2], [3.1, 3.2]],
  ] as const)(
    '%d has the drop and the uncertainty of its two gauges, offsets out (JCGM 100:2008)',
    (i, open, closedBar) => {
      const drop = dropBetween([gauge, gauge], open, { kind: 'offsets-removed', closedBar });
      expect(segments[i]?.dropBar).toBeCloseTo(drop.dropBar, 2);
      expect(segments[i]?.uncertaintyBar).toBeCloseTo(drop.uncertaintyBar, 2);
      expect(segments[i]?.tooSmall).toBe(drop.tooSmall);
    },
  );
});

describe('what is odd about a reading', () => {
  const warned = (given: ReturnType<typeof readings>[], more = {}) =>
    judgeCase({ ...plant, line: line(more) }, given).warnings.map(({ id }) => id);
  it.each<[string, ReturnType<typeof readings>[], object, string[]]>([
    ['nothing about alike gauges', [readings('closed', 3, 3, 3)], {}, []],
    [
      'a reading past the end of the dial',
      [readings('closed', 3, 3, 3)],
      { rangeBar: 2.5 },
      ['gauge-range-low', 'reading-past-range'],
    ],
    [
      'a reading at its end is none',
      [readings('closed', 3, 3, 3)],
      { rangeBar: 3 },
      ['gauge-range-low'],
    ],
    [
      'one off by more than twice its class',
      [readings('closed', 3.25, 3, 3)],
      {},
      ['gauge-differs-at-rest'],
    ],
    ['one within twice its class', [readings('closed', 3.15, 3, 3)], {}, []],
    [
      'two further apart than twice the class: either',
      [readings('closed', 3.25, 3)],
      {},
      ['gauge-differs-at-rest', 'gauge-differs-at-rest'],
    ],
    ['two within it', [readings('closed', 3.15, 3)], {}, []],
    ['a lone gauge differs from nothing', [readings('closed', 3)], {}, []],
    ['a rise along the line', [readings({ open: 1 }, 1, 2, 2)], {}, ['reading-rises']],
    ['a rise within what is not known', [readings({ open: 1 }, 2, 2.1, 2)], {}, []],
  ])('%s', (_, given, more, ids) => {
    expect(warned(given, more)).toEqual(ids);
  });
});

describe('a danger sign', () => {
  it('tells whom to call, in words and not by its name', () => {
    const { stopped } = judgeCase(plant, [{ question: 'danger', value: ['shock'] }]);
    expect(stopped?.because).toEqual(['shock']);
    expect(stopped?.call.length).toBeGreaterThan(20);
  });
});
