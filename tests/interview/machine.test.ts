import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Answer } from '../../shared/case/answer.ts';
import { dangerQuestion } from '../../shared/interview/danger.ts';
import {
  after,
  type Interview,
  type InterviewEvent,
  interviewMachine,
  modeOf,
  rebuild,
} from '../../shared/interview/machine.ts';
import { givenOf } from '../../shared/interview/step.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules } = latestRuleSet();
const machine = interviewMachine(rules);
const danger = dangerQuestion(rules);
const start = rebuild(machine, []);
const run = (events: readonly InterviewEvent[], from: Interview = start) =>
  events.reduce<Interview>((one, event) => after(machine, one, event), from);
const answer = (question: string, value: unknown): InterviewEvent => ({
  type: 'ANSWER',
  answer: { question, value },
});
const open = { taps: { open: 1 }, bar: { G1: 3 } };
const closed = { taps: 'closed', bar: { G1: 4 } };

describe('the interview machine', () => {
  it('holds the answers and which one is being changed, and nothing else', () => {
    const interview = run([answer('smell', 'earthy'), answer(danger, [])]);
    expect(Object.keys(interview.context).sort()).toEqual(['answers', 'changing']);
    expect(interview.context.answers).toEqual([
      { question: 'smell', value: 'earthy' },
      { question: danger, value: [] },
    ]);
  });

  const smell = { question: 'smell' };
  it.each<[string, readonly InterviewEvent[], string]>([
    ['starts out asking', [], 'asking'],
    ['goes on asking after an answer', [answer('smell', 'none')], 'asking'],
    ['stops on a danger sign', [answer(danger, ['shock'])], 'stopped'],
    ['stops on a danger sign said at any moment', [{ type: 'STOP', signs: ['burst'] }], 'stopped'],
    [
      'stops on a danger sign said while an answer is being changed',
      [
        { type: 'CHANGE', step: smell },
        { type: 'STOP', signs: ['burst'] },
      ],
      'stopped',
    ],
    [
      'stops on a danger sign said during work',
      [{ type: 'WORK' }, { type: 'STOP', signs: ['burst'] }],
      'stopped',
    ],
    ['does not stop when there is no danger sign', [answer(danger, [])], 'asking'],
    [
      'stays stopped whatever else is answered',
      [answer(danger, ['shock']), answer('smell', 'none'), { type: 'UNKNOWN', step: smell }],
      'stopped',
    ],
    [
      'cannot be led out of a stop by going to another answer',
      [answer(danger, ['shock']), { type: 'CHANGE', step: smell }, { type: 'WORK' }],
      'stopped',
    ],
    [
      'goes on when the danger sign is taken back',
      [answer(danger, ['shock']), { type: 'TAKE_BACK', step: { question: danger } }],
      'asking',
    ],
    ['goes on when it is made safe', [answer(danger, ['shock']), answer(danger, [])], 'asking'],
    ['goes to an earlier answer', [{ type: 'CHANGE', step: smell }], 'changing'],
    ['comes back from it unchanged', [{ type: 'CHANGE', step: smell }, { type: 'KEEP' }], 'asking'],
    [
      'comes back from it changed',
      [{ type: 'CHANGE', step: smell }, answer('smell', 'earthy')],
      'asking',
    ],
    ['takes up a job sheet', [{ type: 'WORK' }], 'working'],
    ['lays it aside', [{ type: 'WORK' }, { type: 'LEAVE_WORK' }], 'asking'],
    [
      'waits for the proof once work is done',
      [{ type: 'WORK' }, answer('work-done', { job: 'change-sediment' })],
      'proving',
    ],
    [
      'is not content with gauges read at rest',
      [answer('work-done', { job: 'change-sediment' }), answer('readings', closed)],
      'proving',
    ],
    [
      'goes on once the gauges were read with water running',
      [answer('work-done', { job: 'change-sediment' }), answer('readings', open)],
      'asking',
    ],
    [
      'waits again once that reading was taken back',
      [
        answer('work-done', { job: 'change-sediment' }),
        answer('readings', open),
        answer('readings', null),
      ],
      'proving',
    ],
    [
      'still waits for the proof after another answer was changed',
      [
        answer('work-done', { job: 'change-sediment' }),
        { type: 'CHANGE', step: smell },
        answer('smell', 'none'),
      ],
      'proving',
    ],
  ])('%s', (_, events, mode) => {
    expect(modeOf(run(events))).toBe(mode);
  });

  it('puts the time it is given on the answer', () => {
    const at = '2026-11-25T08:30:00+01:00';
    const { answers } = run([{ ...answer('smell', 'none'), at }]).context;
    expect(answers).toEqual([{ question: 'smell', value: 'none', at }]);
  });

  it('answers one tap state with unknown and leaves the others standing', () => {
    const { answers } = run([
      answer('readings', closed),
      { type: 'UNKNOWN', step: { question: 'readings', taps: { open: 1 } } },
    ]).context;
    expect(answers[1]?.value).toEqual({ taps: { open: 1 }, bar: 'unknown' });
    expect(givenOf(answers, rules)).toHaveLength(2);
  });
});

describe('a case put down as JSON text and taken up again', () => {
  const questions = ['smell', 'taste', 'look', 'pump-open'].map((question) => ({ question }));
  const steps = fc.constantFrom(...questions, { question: 'readings', taps: { open: 1 } });
  const answers = fc.oneof(
    fc.record({
      question: fc.constantFrom('smell', 'taste'),
      value: fc.constantFrom<unknown>('none', 'earthy', 'unknown', null),
    }),
    fc.record({
      question: fc.constant(danger),
      value: fc.constantFrom<unknown>([], ['shock'], 'unknown'),
    }),
    fc.record({
      question: fc.constant('readings'),
      value: fc.constantFrom<unknown>(open, closed, 'unknown', null),
    }),
    fc.record({
      question: fc.constant('work-done'),
      value: fc.constantFrom<unknown>({ job: 'change-sediment' }, null),
    }),
  );
  const events: fc.Arbitrary<InterviewEvent> = fc.oneof(
    answers.map((one): InterviewEvent => ({ type: 'ANSWER', answer: one })),
    steps.map((step): InterviewEvent => ({ type: 'UNKNOWN', step })),
    steps.map((step): InterviewEvent => ({ type: 'TAKE_BACK', step })),
    steps.map((step): InterviewEvent => ({ type: 'CHANGE', step })),
    fc.constantFrom<InterviewEvent>(
      ...[{ type: 'KEEP' } as const, { type: 'WORK' } as const, { type: 'LEAVE_WORK' } as const],
      { type: 'STOP', signs: ['burst'] },
    ),
  );

  it('goes on in the same mode with the same answers, unless an answer or a job was open', () => {
    fc.assert(
      fc.property(fc.array(events, { maxLength: 25 }), (list) => {
        const live = run(list);
        const text = JSON.stringify(live.context.answers);
        const again = rebuild(machine, JSON.parse(text) as Answer[]);
        expect(again.context.answers).toEqual(live.context.answers);
        const open = ['changing', 'working'].includes(modeOf(live));
        const closedAgain = open ? run([{ type: 'KEEP' }, { type: 'LEAVE_WORK' }], live) : live;
        expect(modeOf(again)).toBe(modeOf(closedAgain));
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });
});

describe('the answers that stand', () => {
  it.each<[string, readonly Answer[], readonly (readonly [string, unknown])[]]>([
    [
      'a later answer takes the place of the earlier',
      [
        { question: 'smell', value: 'none' },
        { question: 'taste', value: 'none' },
        { question: 'smell', value: 'earthy' },
      ],
      [
        ['smell', 'earthy'],
        ['taste', 'none'],
      ],
    ],
    [
      'one taken back is gone',
      [
        { question: 'smell', value: 'none' },
        { question: 'smell', value: null },
      ],
      [],
    ],
    [
      'readings stand one for each tap state',
      [
        { question: 'readings', value: closed },
        { question: 'readings', value: open },
        { question: 'readings', value: { ...open, bar: { G1: 2 } } },
      ],
      [
        ['readings', closed],
        ['readings', { ...open, bar: { G1: 2 } }],
      ],
    ],
    [
      'gauges that cannot be read take the place of every tap state',
      [
        { question: 'readings', value: closed },
        { question: 'readings', value: 'unknown' },
      ],
      [['readings', 'unknown']],
    ],
    [
      'work done starts the list afresh',
      [
        { question: 'smell', value: 'none' },
        { question: 'work-done', value: { job: 'change-sediment' } },
        { question: 'taste', value: 'none' },
      ],
      [['taste', 'none']],
    ],
  ])('%s', (_, list, expected) => {
    expect(givenOf(list, rules).map(({ step, value }) => [step.question, value])).toEqual(expected);
  });
});
