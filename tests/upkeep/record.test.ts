import { expect, it } from 'vitest';
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
