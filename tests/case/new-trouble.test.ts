import { describe, expect, it } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { givenOf } from '../../shared/interview/step.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();

/** Water from a well with a foot valve; its pump lost its prime, was primed, and ran well that day. */
const plant: Plant = {
  name: 'a well',
  line: [
    { id: 'well', kind: 'tank' },
    { id: 'suction', kind: 'suction', footValve: true },
    { id: 'pump', kind: 'pump', control: { kind: 'flow-controller' } },
    { id: 'G1', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
};
const on = (day: string, answers: readonly (readonly [string, unknown])[]) =>
  answers.map(([question, value]) => ({ question, value, at: `${day}T10:00:00+01:00` }));
const primed = on('2026-11-10', [
  ['danger', []],
  ['work-done', { job: 'prime-pump', parts: ['pump'] }],
  ['readings', { taps: 'closed', bar: { G1: 4.2 } }],
  ['readings', { taps: { open: 1 }, bar: { G1: 3.9 }, pump: 'on' }],
  ['flow', { litres: 10, seconds: 46 }],
  ['look', 'clear'],
]);
const dry = [
  ['complaint', ['no-water']],
  ['onset', 'sudden'],
  ['pump-open', 'runs-dry'],
  ['tank-level', 'half'],
] as const;
const judged = (day: string) =>
  diagnose({ plant, answers: [...primed, ...on(day, dry)] }, rules, words.en!, day).causes;
const factsAt = (answers: typeof primed) =>
  factsOf(plant, answers, rules, { system: '2026-11-20' });

describe('a new trouble after work that was proved', () => {
  it('is not judged by what was read at that proof', () => {
    const [first] = judged('2026-11-20');
    expect(first).toMatchObject({ id: 'pump-unprimed' });
    expect(first?.probability).toBeGreaterThan(0.5);
    const facts = factsAt([...primed, ...on('2026-11-20', dry)]);
    expect([...facts.values.keys()]).not.toContain('flow');
    expect([...facts.readings.keys()]).toEqual([]);
    expect(facts.asked.has('look')).toBe(false);
    // what a gauge errs by stays
    expect(facts.offsets?.bar).toEqual({ G1: 4.2 });
  });

  it('is asked for from the beginning, and shows no answer of that day', () => {
    const given = givenOf([...primed, ...on('2026-11-20', dry)], rules);
    expect(given.map(({ step }) => step.question)).toEqual(dry.map(([question]) => question));
  });

  it('asks for danger anew on a later day, and keeps a sign that was never taken back', () => {
    const later = on('2026-11-20', dry.slice(0, 1));
    const next = (day: string, answers: typeof primed) =>
      diagnose({ plant, answers }, rules, words.en!, day).next?.question;
    expect(next('2026-11-20', [...primed, ...later])).toBe('danger');
    // cleared that day: both the sign and the all-clear are past
    const cleared = on('2026-11-09', [['danger', ['wet-electrics']]]);
    const facts = factsAt([...cleared, ...primed, ...later]);
    expect(facts.asked.has('danger')).toBe(false);
    expect(facts.values.has('danger')).toBe(false);
    expect(next('2026-11-10', [...primed, ...on('2026-11-10', dry.slice(0, 1))])).not.toBe(
      'danger',
    );
    expect(next('2026-11-20', [...primed, ...later, ...on('2026-11-20', [['danger', []]])])).toBe(
      'household',
    );
  });

  it('lets the proof speak on the day it was read, and while nothing new is told', () => {
    for (const answers of [[...primed, ...on('2026-11-10', dry)], primed]) {
      const facts = factsAt(answers);
      expect([...facts.values.keys()]).toContain('flow');
      expect(facts.readings.size).toBe(2);
    }
  });

  it('keeps what was read since it was told', () => {
    const read = on('2026-11-20', [['flow', { litres: 1, seconds: 60 }]]);
    const more = on('2026-11-21', [['complaint', ['no-water', 'noise']]]);
    const facts = factsAt([...primed, ...on('2026-11-20', dry), ...read, ...more]);
    expect(facts.values.get('flow')).toEqual({ litres: 1, seconds: 60 });
  });

  it('stops for a danger told at the proof until that is taken back', () => {
    const danger = on('2026-11-10', [['danger', ['burning']]]);
    const theCase = { plant, answers: [...primed, ...danger, ...on('2026-11-20', dry)] };
    expect(diagnose(theCase, rules, words.en!, '2026-11-20').stopped?.because).toEqual(['burning']);
  });
});
