import { describe, expect, it } from 'vitest';
import { apply, replay } from '../../shared/work/apply.ts';
import { nextInOrder } from '../../shared/work/next.ts';
import { search } from '../../shared/work/search.ts';
import type { Sheet } from '../../shared/work/sheet.ts';
import type { WorkEvent } from '../../shared/work/state.ts';

/** A sheet small enough to follow by hand: lock, try, shut, two signs of no pressure, open, close, back in service. */
import {
  conditions,
  conditionsOf,
  context,
  next,
  run,
  sheetWith,
  stepOf,
  steps,
  toOpen,
} from './made-sheet.ts';

describe('what is lost against the plan', () => {
  it('is made again from the first step that made any of it, and all after it', () => {
    expect(next([...toOpen, { lost: 'shut' }])).toBe('shut');
    expect(next([...toOpen, { lost: 'locked' }])).toBe('lock');
    expect(next([...toOpen, { lost: 'sign-bleed' }])).toBe('bleed');
    const state = run([...toOpen, { lost: 'shut' }]);
    expect(state.made).toEqual(['locked', 'told']);
    expect(state.struck).toEqual(
      ['shut', 'far', 'sign-tap', 'sign-bleed', 'dry'].map((id) => ({
        condition: id,
        because: 'reported',
      })),
    );
  });

  it('is no longer told as lost once it is made again', () => {
    const again = run([...toOpen, { lost: 'shut' }, { step: 'shut' }]);
    expect(again.struck.map(({ condition: id }) => id)).toEqual([
      ...['far', 'sign-tap', 'sign-bleed', 'dry'],
    ]);
  });

  it('changes nothing where it was not made', () => {
    const before = run(toOpen.slice(0, 2));
    expect(apply(context, before, { lost: 'shut' })).toEqual(before);
  });

  it('loses nothing more once the job is over, however long ago that was', () => {
    const at = '2026-11-25T09:00:00Z';
    const over = run([
      ...toOpen.slice(0, 3).map((event) => ({ ...event, at })),
      { step: 'tap', answer: 'runs', at },
      { step: 'leave', at },
    ]);
    expect(over).toMatchObject({ ended: 'handed-over', made: ['locked', 'shut', 'told'] });
    const later = apply(context, over, { pauseMinutes: 5, at: '2026-11-27T09:00:00Z' });
    expect(later).toMatchObject({ ended: 'handed-over', made: over.made, struck: [] });
  });

  it('a break brings back to the first step in doubt; a short one to none', () => {
    expect(next([...toOpen, { pauseMinutes: 59 }])).toBe('open');
    expect(next([...toOpen, { pauseMinutes: 60 }])).toBe('lock');
    expect(run([...toOpen, { pauseMinutes: 60 }]).struck[0]?.because).toBe('break');
  });

  it('a break is told by the clock, also without anything ticked since, and never by one that goes back', () => {
    const events: WorkEvent[] = toOpen.map((event) => ({ ...event, at: '2026-11-25T09:00:00Z' }));
    const at = (now: string) => nextInOrder(context, replay(context, events, [], now))?.id;
    expect(at('2026-11-25T09:59:59Z')).toBe('open');
    expect(at('2026-11-25T10:00:00Z')).toBe('lock');
    expect(at('2026-11-24T09:00:00Z')).toBe('open');
    expect(replay(context, events).lastAt).toBe('2026-11-25T09:00:00Z');
    expect(replay(context, toOpen, [], '2027-01-01T00:00:00Z').made).toContain('locked');
  });

  it('a step taken back takes what it made, and only the last can be', () => {
    const back = run([...toOpen, { takeBack: 'far' }]);
    expect(back).toMatchObject({ struck: [{ condition: 'far', because: 'taken-back' }] });
    expect(nextInOrder(context, back)?.id).toBe('far');
    const refused = run([...toOpen, { takeBack: 'bleed' }]);
    expect(refused.refused).toEqual({ step: 'bleed', why: 'no-way-back', needs: [] });
    expect(nextInOrder(context, refused)?.id).toBe('open');
  });

  it('with a part open goes aside to what mends it and does only that, then on where it was', () => {
    const mended = conditionsOf({
      ...{ locked: {}, shut: {}, opened: { mends: 'mend' } },
    });
    const sheet = sheetWith({
      steps: [
        { id: 'lock', makes: ['locked'] },
        { id: 'shut', makes: ['shut'] },
        { id: 'open', makes: ['opened'] },
        { id: 'wash', needs: ['locked', 'shut'] },
      ].map(stepOf),
      branches: {
        mend: {
          then: 'retry',
          steps: [
            { id: 'lock-again', makes: ['locked'] },
            { id: 'shut-again', makes: ['shut'] },
          ].map(stepOf),
        },
      },
    });
    const within = { sheet, conditions: mended };
    const open: WorkEvent[] = [{ step: 'lock' }, { step: 'shut' }, { step: 'open' }];
    const asks = (...events: WorkEvent[]) =>
      nextInOrder(within, run([...open, ...events], within))?.id;
    expect(asks()).toBe('wash');
    expect(asks({ lost: 'shut' })).toBe('shut-again');
    // what does not stand cannot be lost, so there is nothing to mend
    expect(asks({ lost: 'told' })).toBe('wash');
    expect(asks({ lost: 'shut' }, { step: 'shut-again' })).toBe('wash');
    expect(asks({ lost: 'shut' }, { lost: 'locked' })).toBe('lock-again');
    expect(asks({ lost: 'shut' }, { lost: 'locked' }, { step: 'lock-again' })).toBe('shut-again');
  });
});

describe('the search', () => {
  const found = (sheet: Sheet, upsets: 'breaks' | 'all' = 'all') =>
    search(sheet, conditions, upsets);
  const messages = (sheet: Sheet) => found(sheet).breaches.map(({ message }) => message);
  const changedStep = (id: string, change: object): Sheet =>
    sheetWith({ steps: steps.map((step) => (step.id === id ? { ...step, ...change } : step)) });

  it('finds nothing wrong with a sheet that shuts, sees by two means, and puts back', () => {
    expect(found(sheetWith())).toMatchObject({ breaches: [], canBeDone: true });
  });

  it.each<[string, string, object, RegExp]>([
    ['a pump not locked', 'lock', { does: [] }, /says "locked" when it is not so/],
    ['a supply not shut', 'shut', { does: [] }, /says "shut" when it is not so/],
    ['one sign for two', 'open', { needs: ['locked', 'shut', 'far'] }, /^$/],
    ['a house that drains back', 'far', { does: [] }, /opens a wetted part while the house/],
    ['a tap left open', 'tap-shut', { does: [] }, /ends with a tap open/],
    [
      'no leak check',
      'feed',
      { does: ['open-supply', 'open-far', 'power-on', 'let-air-out'] },
      /leak check/,
    ],
  ])('finds %s', (_, id, change, says) => {
    const all = messages(changedStep(id, change));
    if (says.source === '^$') expect(all).toEqual([]);
    else expect(all).toEqual(expect.arrayContaining([expect.stringMatching(says)]));
  });

  it('finds the part opened under pressure where one sign is taken for two, by a shortest way', () => {
    const weak = { ...conditions, dry: { ...conditions.dry!, atLeast: 1 } };
    const sheet = sheetWith({ steps: steps.filter(({ id }) => id !== 'bleed') });
    const { breaches } = search(sheet, weak, 'breaks');
    const under = breaches.find(({ message }) => message === 'opens a wetted part under pressure');
    expect(under?.step?.id).toBe('open');
    expect(under?.path).toEqual([
      ...['(the tap deceives)', 'tell', 'lock', 'shut', 'tap: dry', 'far', 'open'],
    ]);
  });

  it('sees a break and each loss where both are asked for', () => {
    const all = found(sheetWith(), 'all').states;
    expect(found(sheetWith(), 'breaks').states).toBeLessThanOrEqual(all);
    const never = sheetWith({ steps: steps.map((each) => ({ ...each, loses: [] })) });
    // what is still claimed after the supply is opened again is not so
    expect(messages(never)).toEqual(expect.arrayContaining([expect.stringMatching(/not so/)]));
  });

  it('finds by a loss alone what no break brings: a dry tap that was cut off says nothing', () => {
    const { breaches } = found(changedStep('tap', { does: ['open-tap'], loses: [] }));
    const under = breaches.find(({ message }) => message === 'opens a wetted part under pressure');
    expect(under?.path).toContain('(dry is lost)');
  });

  it('finds a sheet that stands still', () => {
    const result = found(changedStep('open', { needs: ['sign-gauge'] }));
    expect(result.canBeDone).toBe(false);
    expect(result.breaches).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ message: 'cannot be finished from here' }),
      ]),
    );
  });

  it('finds water advice withdrawn too early, and untreated water that nobody is told of', () => {
    const unsafe = (change: object) => ({
      ...changedStep('tell', change),
      found: ['unsafe-water' as const],
    });
    expect(messages(unsafe({}))).toEqual([]);
    expect(messages(unsafe({ earns: ['microbes'] }))).toEqual(
      expect.arrayContaining([
        'withdraws the water advice before it is earned',
        'ends with untreated water in the house and no advice about it',
      ]),
    );
  });
});
