import { describe, expect, it } from 'vitest';
import { recordFrom } from '../../shared/upkeep/record.ts';

const at = '2026-11-25T08:00:00Z';
const read = (value: unknown) => recordFrom([{ question: 'readings', value, at }]).history;

it('keeps readings in whatever unit they came, in bar', () => {
  expect(read({ taps: 'closed', bar: { G1: 3.4, G2: 'unknown' } })).toEqual([
    { at, taps: 'closed', bar: { G1: 3.4 } },
  ]);
  const [psi] = read({ taps: 'closed', psi: { G1: 50 }, flowLpm: 12 });
  // 1 psi is 6894.757 Pa (NIST SP 811, appendix B.8)
  expect(psi).toMatchObject({ bar: { G1: expect.closeTo(3.4474, 4) }, flowLpm: 12 });
  expect(read({ taps: 'closed', kPa: { G1: 340 } })).toMatchObject([
    { bar: { G1: expect.closeTo(3.4, 9) } },
  ]);
});

it('takes no answer for a measurement or for work where none was given', () => {
  const answers = [
    { question: 'readings', value: 'unknown', at },
    { question: 'work-done', value: 'unknown', at },
    { question: 'work-done', value: null, at },
    { question: 'flow', value: null, at },
    { question: 'smell', value: 'none', at },
  ];
  expect(recordFrom(answers)).toEqual({ history: [], done: [] });
  const done = { job: 'change-sediment', parts: ['s1'] };
  expect(recordFrom([{ question: 'work-done', value: done, at }]).done).toEqual([{ at, ...done }]);
});

describe('what was put right in the same round does not count beside what it was put right to', () => {
  const closed = (G1: number) => ({ taps: 'closed', bar: { G1 } });
  const open = (G1: number) => ({ taps: { open: 1 }, bar: { G1 } });
  const work = { job: 'change-sediment', parts: ['s1'] };
  /** [hour, value, question, case] */
  type Told = [hour: number, value: unknown, question?: string, caseRef?: string];
  const pressures = (...told: Told[]) =>
    recordFrom(
      told.map(([hour, value, question = 'readings', caseRef = 'one']) => ({
        question,
        value,
        caseRef,
        at: new Date(Date.UTC(2026, 10, 25, 0, hour * 60)).toISOString(),
      })),
    ).history.map((entry) => ('bar' in entry ? entry.bar.G1 : entry.value));
  const flow = (litres: number) => ({ litres, seconds: 60 });

  it.each<[string, Told[], unknown[]]>([
    [
      'the same taps again',
      [
        [8, closed(34)],
        [8.1, closed(3.4)],
      ],
      [3.4],
    ],
    [
      'after other taps',
      [
        [8, closed(34)],
        [8.1, open(3)],
        [8.2, closed(3.4)],
      ],
      [3, 3.4],
    ],
    [
      'twice',
      [
        [8, closed(34)],
        [8.1, closed(4.3)],
        [8.2, closed(3.4)],
      ],
      [3.4],
    ],
    [
      'at the end of a long visit',
      [
        [8, closed(34)],
        [19.9, closed(3.4)],
      ],
      [3.4],
    ],
    [
      'sent late, said earlier',
      [
        [9, closed(34)],
        [8, closed(3.4)],
      ],
      [3.4],
    ],
    [
      'another measurement',
      [
        [8, flow(100), 'flow'],
        [8.1, flow(10), 'flow'],
      ],
      [flow(10)],
    ],
    [
      'readings taken back',
      [
        [8, closed(34)],
        [8.1, open(3)],
        [8.2, null],
      ],
      [],
    ],
    [
      'one tap state taken back',
      [
        [8, open(3)],
        [8.1, closed(34)],
        [8.2, { taps: 'closed', bar: 'unknown' }],
      ],
      [3],
    ],
    [
      'readings said to be unknown',
      [
        [8, closed(34)],
        [8.1, 'unknown'],
      ],
      [],
    ],
    [
      'a measurement taken back',
      [
        [8, flow(100), 'flow'],
        [8.1, null, 'flow'],
      ],
      [],
    ],
    [
      'taken back and read anew',
      [
        [8, closed(34)],
        [8.1, null],
        [8.2, closed(3.4)],
      ],
      [3.4],
    ],
  ])('%s', (_, told, expected) => {
    expect(pressures(...told)).toEqual(expected);
  });

  it.each<[string, Told[], unknown[]]>([
    [
      'the next round, a day later',
      [
        [8, closed(3.4)],
        [31, closed(3.3)],
      ],
      [3.4, 3.3],
    ],
    [
      'half a day later',
      [
        [8, closed(3.4)],
        [20, closed(3.3)],
      ],
      [3.4, 3.3],
    ],
    [
      'other taps',
      [
        [8, closed(3.4)],
        [8.1, open(3)],
      ],
      [3.4, 3],
    ],
    [
      'work between',
      [
        [8, open(2)],
        [9, work, 'work-done'],
        [10, open(3)],
      ],
      [2, 3],
    ],
    [
      'taken back after work',
      [
        [8, open(2)],
        [9, work, 'work-done'],
        [10, open(3)],
        [10.1, null],
      ],
      [2],
    ],
    [
      'taken back a month later',
      [
        [8, open(2)],
        [800, open(1)],
        [800.1, null],
      ],
      [2],
    ],
    [
      'another question taken back',
      [
        [8, closed(3.4)],
        [8.1, null, 'flow'],
      ],
      [3.4],
    ],
    [
      "another case's",
      [
        [8, open(2)],
        [8.1, open(3), 'readings', 'two'],
        [8.2, null, 'readings', 'two'],
      ],
      [2],
    ],
  ])('but %s is a point of its own or leaves it alone', (_, told, expected) => {
    expect(pressures(...told)).toEqual(expected);
  });

  it('work that was begun and handed over does not part a round', () => {
    const begun = { ...work, done: false };
    expect(pressures([8, open(2)], [9, begun, 'work-done'], [10, open(3)])).toEqual([3]);
  });
});
