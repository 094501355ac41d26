import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { apply, replay } from '../../shared/work/apply.ts';
import { jobLog, jobsUnderWay, type WorkEntry } from '../../shared/work/log.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import { context, next, run, toOpen } from './made-sheet.ts';

/** Entries of one device, each made in sight of the one before. */
function entriesOf(
  device: string,
  events: readonly (WorkEvent | null)[],
  follows: string | null = null,
): WorkEntry[] {
  const ids = events.map((_, i) => `${device}${i}-after-${follows}`);
  return events.map((event, i) => ({
    ...{ eventId: ids[i] ?? '', follows: i === 0 ? follows : (ids[i - 1] ?? null) },
    ...{ job: 'job', part: null, device, event },
  }));
}

const [tell, lock, shut, ...rest] = toOpen as [WorkEvent, WorkEvent, WorkEvent];
const counted = (log: readonly WorkEntry[]) => jobLog(log, 'job', null).counted;
const events = (log: readonly WorkEntry[]) => counted(log).map(({ event }) => event);
const stillSo: WorkEvent = { stillSo: ['locked', 'told'] };

describe('what counts of a job that two devices are at', () => {
  const first = entriesOf('a', [tell, lock]);
  const head = first.at(-1)?.eventId ?? '';

  it('is all of one device', () => {
    expect(events(entriesOf('a', toOpen))).toEqual(toOpen);
  });

  it('is nothing of another one before it said what is still so', () => {
    const log = [...first, ...entriesOf('b', [shut], head)];
    expect(events(log)).toEqual([tell, lock]);
    expect(jobLog(log, 'job', null)).toMatchObject({ head, device: 'a', tooLate: 'b' });
  });

  it('is what it ticks after that, and nothing more of the first one', () => {
    const theirs = entriesOf('b', [stillSo, shut], head);
    const late = entriesOf('a', [shut, ...rest], head);
    expect(events([...first, ...theirs, ...late])).toEqual([tell, lock, stillSo, shut]);
    // and the other way round nothing of the second one
    expect(events([...first, ...late, ...theirs])).toEqual(toOpen);
  });

  it('a pump tried before it was locked anew elsewhere does not count, though it is the step to do', () => {
    const anew = entriesOf('b', [stillSo, { lost: 'locked' }, lock], head);
    const tried = entriesOf('a', [shut], head);
    const log = [...first, ...anew];
    // on its own the machine would take it
    expect(apply(context, run(events(log)), shut).refused).toBeNull();
    expect(events([...log, ...tried])).toEqual(events(log));
  });

  it.each<[string, WorkEvent]>([
    ['a danger', { danger: ['shock'] }],
    ['something lost', { lost: 'locked' }],
  ])('%s counts whoever tells it and however late', (_, warning) => {
    const theirs = entriesOf('b', [stillSo, shut], head);
    const late = entriesOf('a', [shut, warning], head);
    const log = [...first, ...theirs, ...late];
    expect(events(log)).toEqual([tell, lock, stillSo, shut, warning]);
    // who is at the job goes on as before
    const on = entriesOf('b', rest, theirs.at(-1)?.eventId);
    expect(events([...log, ...on])).toEqual([tell, lock, stillSo, shut, warning, ...rest]);
  });

  it('is nothing once it is over: what comes late begins no job', () => {
    const over = [...first, ...entriesOf('a', [null], head)];
    const late = entriesOf('b', [stillSo, shut, { danger: ['shock'] }, tell], head);
    expect(counted([...over, ...late])).toEqual([]);
    expect(jobsUnderWay([...over, ...late])).toEqual([]);
    const again = entriesOf('b', [tell], over.at(-1)?.eventId);
    expect(events([...over, ...late, ...again])).toEqual([tell]);
    expect(jobsUnderWay([...over, ...late, ...again])).toMatchObject([
      { job: 'job', part: null, device: 'b', tooLate: null },
    ]);
  });

  it('is not ended by who had not seen where it stood', () => {
    const on = entriesOf('a', [shut], head);
    const end = entriesOf('b', [null], head);
    expect(events([...first, ...on, ...end])).toEqual([tell, lock, shut]);
    expect(jobLog([...first, ...on, ...end], 'job', null).tooLate).toBe('b');
  });

  it('is told apart by job and part', () => {
    const other = entriesOf('b', [tell]).map((entry) => ({ ...entry, part: 'sed-1' }));
    expect(jobsUnderWay([...first, ...other]).map(({ part }) => part)).toEqual([null, 'sed-1']);
  });
});

describe('what was found when somebody went on', () => {
  it('stands; what was not found so is lost with all that goes with it', () => {
    const all = run(toOpen).made;
    expect(next([...toOpen, { stillSo: all }])).toBe('open');
    const found = all.filter((id) => id !== 'shut');
    const after = run([...toOpen, { stillSo: found }]);
    expect(after.struck.map(({ condition }) => condition)).toEqual(
      expect.arrayContaining(['shut', 'dry']),
    );
    expect(next([...toOpen, { stillSo: found }])).toBe('shut');
  });

  it('is asked too late where an hour went by: it is checked again like after any break', () => {
    const at = (time: string) => ({ at: `2026-11-25T${time}Z` });
    const before = toOpen.map((event) => ({ ...event, ...at('09:00:00') }));
    const found = (time: string) => ({ stillSo: run(toOpen).made, ...at(time) });
    expect(next([...before, found('09:59:59')])).toBe('open');
    expect(next([...before, found('10:00:00')])).toBe('lock');
  });

  it('leaves no tick of others to be taken back', () => {
    const state = run([...toOpen, { stillSo: run(toOpen).made }]);
    expect(apply(context, state, { takeBack: 'far' }).refused?.why).toBe('no-way-back');
  });
});

test('saying what is still so never makes a condition, and never leads past a step', () => {
  const anything = fc.array(
    fc.oneof(
      fc.constantFrom(...toOpen),
      fc.constantFrom<WorkEvent>({ lost: 'locked' }, { lost: 'shut' }),
      fc.record({ pauseMinutes: fc.constantFrom(5, 60) }),
    ),
    { maxLength: 20 },
  );
  const ids = fc.subarray(Object.keys(context.conditions));
  fc.assert(
    fc.property(anything, ids, (happened, found) => {
      const before = replay(context, happened);
      const after = apply(context, before, { stillSo: found });
      expect(before.made).toEqual(expect.arrayContaining([...after.made]));
      expect(found).toEqual(expect.arrayContaining([...after.made]));
      expect(after.frames[0]?.at).toBeLessThanOrEqual(before.frames[0]?.at ?? 0);
    }),
  );
});
