import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { judgeCase } from '../diagnosis/rules.ts';
import { plant } from './one-gauge.ts';

const refusal = (
  answers: { question: string; value: unknown }[],
  of: unknown = plant,
): InputError => {
  try {
    judgeCase(of, answers);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('was not refused');
};

describe('an answer that cannot be is refused with its place and the way out', () => {
  const rows: [string, { question: string; value: unknown }, string, RegExp][] = [
    [
      'an unknown question',
      { question: 'smel', value: 'none' },
      'answers[0].question',
      /no question "smel"/,
    ],
    [
      'an unknown choice',
      { question: 'smell', value: 'eggs' },
      'answers[0].value',
      /use one of none, /,
    ],
    [
      'a gauge’s figure typed a question too early, as metres of water',
      { question: 'tank-level', value: { m: 360 } },
      'answers[0].value.m',
      /at most 150/,
    ],
    ['a list that is none', { question: 'complaint', value: 'weak' }, 'answers[0].value', /a list/],
    [
      'the same twice in a list',
      { question: 'complaint', value: ['weak', 'weak'] },
      'answers[0].value',
      /twice/,
    ],
    [
      'a stranger in a list',
      { question: 'complaint', value: ['weak', 'sad'] },
      'answers[0].value[1]',
      /"sad" is not an answer/,
    ],
    [
      'an unknown gauge',
      { question: 'readings', value: { taps: 'closed', bar: { G9: 3 } } },
      'answers[0].value.bar.G9',
      /those there: G1/,
    ],
    [
      'two pressure units',
      { question: 'readings', value: { taps: 'closed', bar: { G1: 3 }, psi: { G1: 44 } } },
      'answers[0].value',
      /two pressure units/,
    ],
    [
      'no pressure at all',
      { question: 'readings', value: { taps: 'closed' } },
      'answers[0].value',
      /needs the pressures/,
    ],
    [
      'a negative pressure',
      { question: 'readings', value: { taps: 'closed', bar: { G1: -1 } } },
      'answers[0].value.bar.G1',
      /cannot be/,
    ],
    [
      'a pressure beyond all arithmetic',
      { question: 'readings', value: { taps: 'closed', bar: { G1: 9e300 } } },
      'answers[0].value.bar.G1',
      /at most 1000000000.*"unknown"/,
    ],
    [
      'as much in another unit',
      { question: 'readings', value: { taps: 'closed', psi: { G1: 9e300 } } },
      'answers[0].value.psi.G1',
      /at most 1000000000/,
    ],
    ...(
      [
        ['readings', { taps: { open: 1 }, bar: { G1: 3 }, flowLpm: 9e300 }, '.flowLpm'],
        ['flow', { litres: 9e300, seconds: 5 }, '.litres'],
        ['flow', { litres: 5, seconds: 9e300 }, '.seconds'],
        ['pressure-hold', { lostBar: 9e300, minutes: 5 }, '.lostBar'],
        ['cycle-times', { onS: 9e300, offS: 5, taps: 'closed' }, '.onS'],
        ['water-test', { turbidityNtu: 9e300 }, '.turbidityNtu'],
        ['lamp-hours', 9e300, ''],
        ['shut-off', { bar: 9e300 }, '.bar'],
      ] as const
    ).map(
      ([question, value, place]): [
        string,
        { question: string; value: unknown },
        string,
        RegExp,
      ] => [
        `a figure beyond all arithmetic: ${question}${place}`,
        { question, value },
        `answers[0].value${place}`,
        /at most 1000000000/,
      ],
    ),
    [
      'a text where a number stands',
      { question: 'flow', value: { litres: 'ten', seconds: 5 } },
      'answers[0].value.litres',
      /must be a number/,
    ],
    [
      'a day that is still to come',
      { question: 'filters-changed', value: { sediment: '2099-01-01' } },
      'answers[0].value.sediment',
      /later than 2026-11-25.*leave it out/,
    ],
    [
      'an endless pressure',
      { question: 'readings', value: { taps: 'closed', bar: { G1: Number.POSITIVE_INFINITY } } },
      'answers[0].value.bar.G1',
      /./,
    ],
    [
      'a pressure that is not a number',
      { question: 'readings', value: { taps: 'closed', bar: { G1: Number.NaN } } },
      'answers[0].value.bar.G1',
      /./,
    ],
    [
      'a field nobody knows',
      { question: 'readings', value: { taps: 'closed', bar: { G1: 3 }, when: 1 } },
      'answers[0].value.when',
      /unknown field/,
    ],
    [
      'no taps',
      { question: 'readings', value: { taps: { open: 0 }, bar: { G1: 3 } } },
      'answers[0].value.taps.open',
      /at least one tap/,
    ],
    [
      'an unknown tap',
      { question: 'readings', value: { taps: { open: ['sink'] }, bar: { G1: 3 } } },
      'answers[0].value.taps.open[0]',
      /those there: bath/,
    ],
    [
      'the same tap twice',
      { question: 'readings', value: { taps: { open: ['bath', 'bath'] }, bar: { G1: 3 } } },
      'answers[0].value.taps.open',
      /twice/,
    ],
    [
      'water drawn with all taps shut',
      { question: 'readings', value: { taps: 'closed', bar: { G1: 3 }, flowLpm: 5 } },
      'answers[0].value.flowLpm',
      /cannot be drawn/,
    ],
    [
      'zero seconds',
      { question: 'flow', value: { litres: 5, seconds: 0 } },
      'answers[0].value.seconds',
      /./,
    ],
    [
      'zero minutes',
      { question: 'pressure-hold', value: { lostBar: 1, minutes: 0 } },
      'answers[0].value.minutes',
      /./,
    ],
    [
      'a cycle of zero seconds',
      { question: 'cycle-times', value: { onS: 0, offS: 5, taps: 'closed' } },
      'answers[0].value.onS',
      /./,
    ],
    [
      'a vacuum below nothing',
      { question: 'suction-vacuum', value: { bar: -2 } },
      'answers[0].value.bar',
      /vacuum/,
    ],
    [
      'a vacuum without its minus sign',
      { question: 'suction-vacuum', value: { bar: 0.3 } },
      'answers[0].value.bar',
      /minus sign, e\.g\. -0\.3/,
    ],
    [
      'a filter that is not there',
      { question: 'empty-housing', value: { removed: ['carbon-1'], result: 'same' } },
      'answers[0].value.removed[0]',
      /those there: sed-1/,
    ],
    [
      'a day that is none',
      { question: 'filters-changed', value: { sediment: '2026-13-01' } },
      'answers[0].value.sediment',
      /YYYY-MM-DD/,
    ],
    [
      'a medium the plant lacks',
      { question: 'filters-changed', value: { carbon: '2026-01-01' } },
      'answers[0].value.carbon',
      /those there: sediment, sed-1/,
    ],
    [
      'a job nobody knows',
      { question: 'work-done', value: { job: 'pray' } },
      'answers[0].value.job',
      /no job "pray"/,
    ],
    [
      'work on a part that is not there',
      { question: 'work-done', value: { job: 'change-sediment', parts: ['sed-9'] } },
      'answers[0].value.parts[0]',
      /no part "sed-9"/,
    ],
    [
      'work on a part that the job is not for',
      { question: 'work-done', value: { job: 'change-sediment', parts: ['sed-1', 'pump'] } },
      'answers[0].value.parts[1]',
      /change-sediment is no job for part "pump"; it is for sed-1/,
    ],
    [
      'work on a part that no part of the plant is for',
      { question: 'work-done', value: { job: 'change-reducer', parts: ['pump'] } },
      'answers[0].value.parts[0]',
      /change-reducer is no job for part "pump"; it is for none here/,
    ],
    ['a pH of 20', { question: 'water-test', value: { ph: 20 } }, 'answers[0].value.ph', /./],
    [
      'a changed plant without a house',
      { question: 'plant', value: { name: 'x', line: [{ id: 'tank', kind: 'tank' }] } },
      'answers[0].value.line',
      /house/,
    ],
  ];
  it.each(rows)('%s', (_, answer, where, message) => {
    const error = refusal([answer]);
    expect(error.where).toBe(where);
    expect(error.message).toMatch(message);
  });
});

it.each([
  ['bar', -1.2, -1.1],
  ['psi', -17, -15.9],
  ['kPa', -120, -110],
])(
  'a gauge before the pump is told in %s what can be, and that can be',
  (unit, reading, lowest) => {
    const line = [plant.line[0], { id: 'G0', kind: 'gauge' }, ...plant.line.slice(1)];
    const read = (value: number) => [
      { question: 'readings', value: { taps: 'closed', [unit]: { G0: value } } },
    ];
    const error = refusal(read(reading), { ...plant, line });
    expect(error.where).toBe(`answers[0].value.${unit}.G0`);
    expect(error.message).toContain(`before the pump reads ${lowest} or more`);
    expect(judgeCase({ ...plant, line }, read(lowest)).causes.length).toBeGreaterThan(0);
  },
);

it('the largest figures that are taken leave every probability a number', () => {
  const { causes } = judgeCase(plant, [
    { question: 'readings', value: { taps: 'closed', bar: { G1: 1e9 } } },
    { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 1e9 }, flowLpm: 1e9 } },
  ]);
  expect(causes.filter(({ probability }) => !Number.isFinite(probability))).toEqual([]);
});
