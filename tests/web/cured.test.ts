import { describe, expect, test } from 'vitest';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import type { Proof } from '../../shared/work/proving.ts';
import type { Looked, ShownJob } from '../../web/brain/protocol.ts';
import { isCured, justDone, stillToDo } from '../../web/ranking/cured.ts';
import type { DoneWork, KeptCase } from '../../web/store/kept.ts';
import { afterWorkText } from '../../web/talk/after-work-text.ts';

const work = (outcome: Proof['outcome']): DoneWork => ({
  ...{ job: 'set-precharge', name: 'Set the air', part: null, at: '2026-11-26T10:00:00Z' },
  ...{ notes: [], proof: { outcome, left: [], timesClean: null } },
});

const kept = (done: readonly DoneWork[], lastAnswerAt: string): KeptCase => ({
  ...{ key: 'made', plant: fernhollow, audience: 'technician', createdAt: lastAnswerAt },
  ...{ changedAt: lastAnswerAt, base: null, sent: 0, local: false, closed: false, work: [], done },
  answers: [{ question: 'look', value: 'clear', at: lastAnswerAt }],
});

const [before, after] = ['2026-11-26T09:59:00Z', '2026-11-26T10:01:00Z'];
const plan = [{ overdue: false }, { overdue: true }] as ShownJob[];

describe('after a job that ended the trouble', () => {
  const cured = kept([work('better'), work('cured')], before);

  test('it stands as what was found, and only what is due anyway is left to do', () => {
    expect(justDone(cured)?.proof?.outcome).toBe('cured');
    expect(isCured(cured)).toBe(true);
    expect(stillToDo(plan, cured)).toEqual([{ overdue: true }]);
  });

  test('the questions speak again as soon as something is told', () => {
    const told = kept([work('cured')], after);
    expect(justDone(told)).toBeNull();
    expect(stillToDo(plan, told)).toEqual(plan);
  });
});

test.each(['better', 'no-change', 'worse', 'not-measured'] as const)(
  'a job that came to "%s" leaves the plan as it is',
  (outcome) => {
    const open = kept([work('cured'), work(outcome)], before);
    expect(isCured(open)).toBe(false);
    expect(stillToDo(plan, open)).toEqual(plan);
  },
);

describe('what is said after a job', () => {
  const say = (key: string, holes = {}) => [key, ...Object.values(holes)].join(' ');
  const lamp = { name: 'Change the lamp', overdue: true };
  const other = { name: 'Flush the line', overdue: false };
  const told = (outcome: Proof['outcome'], jobs: readonly object[], cautions: readonly object[]) =>
    afterWorkText(
      kept([work(outcome)], before),
      { plan: jobs, result: { cautions } } as unknown as Looked,
      say,
    );
  const boil = { id: 'boil-or-bottled', text: 'Do not drink it.' };

  test.each([
    ['cured', [], [], 'after-work did-cured Set the air after-work-over'],
    ['cured', [other], [], 'after-work did-cured Set the air after-work-over'],
    ['cured', [lamp, other], [], 'after-work did-cured Set the air after-work-due Change the lamp'],
    ['cured', [], [boil], 'after-work did-cured Set the air after-work-warned'],
    [
      'not-measured',
      [lamp],
      [boil],
      'after-work did-not-measured Set the air after-work-due Change the lamp after-work-warned',
    ],
    ['better', [other], [], 'after-work did-better Set the air'],
    ['not-measured', [], [], 'after-work did-not-measured Set the air'],
  ] as const)('%s, with these left: %j, warned of: %j', (outcome, jobs, cautions, text) => {
    expect(told(outcome, jobs, cautions)).toBe(text);
  });

  test('nothing, once something was told since', () => {
    const since = kept([work('cured')], after);
    expect(afterWorkText(since, { plan: [] } as unknown as Looked, say)).toBeNull();
  });
});
