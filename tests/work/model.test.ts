import { describe, expect, it } from 'vitest';
import { apply } from '../../shared/work/apply.ts';
import { doubtfulAfter, standing, stands, without } from '../../shared/work/conditions.ts';
import { missingFor, nextInOrder, offered } from '../../shared/work/next.ts';
import type { SheetStep } from '../../shared/work/sheet.ts';

/** A sheet small enough to follow by hand: lock, try, shut, two signs of no pressure, open, close, back in service. */
import {
  branches,
  conditions,
  conditionsOf,
  context,
  run,
  sheetWith,
  stepOf,
  steps,
  toOpen,
} from './made-sheet.ts';

describe('conditions', () => {
  it('made of others stand by enough of them, and not by one', () => {
    expect(stands('dry', ['sign-tap'], conditions)).toBe(false);
    expect(stands('dry', ['sign-tap', 'sign-gauge'], conditions)).toBe(true);
    expect(stands('dry', ['dry'], conditions)).toBe(false);
    expect(stands('told', ['told'], conditions)).toBe(true);
    expect(stands('locked', ['told'], conditions)).toBe(false);
    expect(standing(['sign-tap', 'sign-bleed', 'told'], conditions)).toEqual([
      ...['told', 'sign-tap', 'sign-bleed', 'dry'],
    ]);
  });

  it('go with what they hang on, and one made of others takes those with it', () => {
    const made = ['told', 'locked', 'shut', 'sign-tap', 'sign-gauge'];
    expect(without(['locked'], made, conditions)).toEqual(['told', 'shut']);
    expect(without(['dry'], made, conditions)).toEqual(['told', 'locked', 'shut']);
    expect(without(['sign-tap'], made, conditions)).toEqual([
      'told',
      'locked',
      'shut',
      'sign-gauge',
    ]);
    expect(without([], made, conditions)).toEqual(made);
  });

  it('what was never made takes nothing with it', () => {
    const chain = conditionsOf({ a: {}, b: { lostWith: ['a'] }, c: { lostWith: ['b'] } });
    expect(without(['a'], ['a', 'c'], chain)).toEqual(['c']);
    expect(without(['a'], ['a', 'b', 'c'], chain)).toEqual([]);
  });

  it('are in doubt from the minute they are due on, those that never are due never', () => {
    const made = ['told', 'locked', 'sign-gauge'];
    expect(doubtfulAfter(59.9, made, conditions)).toEqual([]);
    expect(doubtfulAfter(60, made, conditions)).toEqual(['locked']);
    expect(doubtfulAfter(1e9, made, conditions)).toEqual(['locked']);
  });
});

describe('the order of a sheet', () => {
  it('offers the next step only, and it only when all it needs stands', () => {
    const ready = run(toOpen);
    expect(offered(context, ready)?.id).toBe('open');
    const lost = { ...ready, made: ready.made.filter((id) => id !== 'far') };
    expect(offered(context, lost)).toBeNull();
    expect(missingFor(context, lost, context.sheet.steps[6] as SheetStep)).toEqual(['far']);
    expect(apply(context, lost, { step: 'open' }).refused).toEqual({
      step: 'open',
      why: 'not-yet',
      needs: ['far'],
    });
  });

  it('ends as done after its last step, and takes nothing more', () => {
    const whole = [...toOpen, { step: 'open' }, { step: 'tap-shut' }, { step: 'feed' }];
    const done = run(whole);
    expect(done).toMatchObject({
      ended: 'done',
      made: ['sign-bleed', 'told'].slice(1),
      refused: null,
    });
    expect(nextInOrder(context, done)).toBeNull();
    expect(apply(context, done, { step: 'tell' })).toEqual({ ...done, refused: null });
    expect(apply(context, done, { danger: ['shock'] })).toMatchObject({ ended: 'stopped' });
  });

  it('wants an answer where there are answers, and one of those', () => {
    const before = toOpen.slice(0, 3);
    for (const answer of [undefined, 'wet']) {
      const state = run([...before, { step: 'tap', ...(answer !== undefined && { answer }) }]);
      expect(state.refused).toEqual({ step: 'tap', why: 'answer', needs: [] });
      expect(nextInOrder(context, state)?.id).toBe('tap');
    }
  });

  it('goes aside without counting the step as done, and a branch that hands over ends it', () => {
    const aside = run([...toOpen.slice(0, 3), { step: 'tap', answer: 'runs' }]);
    expect(nextInOrder(context, aside)?.id).toBe('leave');
    expect(aside.made).toEqual(['locked', 'shut', 'told']);
    expect(apply(context, aside, { step: 'leave' })).toMatchObject({ ended: 'handed-over' });
  });

  it.each([
    ['retry', 'tap'],
    ['go-on', 'bleed'],
  ] as const)('after a branch to %s asks %s', (then, id) => {
    const sheet = sheetWith({ branches: { call: { ...branches.call!, then } } });
    const within = { sheet, conditions };
    const events = [...toOpen.slice(0, 3), { step: 'tap', answer: 'runs' }, { step: 'leave' }];
    expect(nextInOrder(within, run(events, within))?.id).toBe(id);
  });

  it('leaves out a step while the condition it hangs on does not stand', () => {
    const only = stepOf({ id: 'only', if: 'shut' });
    const within = (at: number) => ({
      sheet: sheetWith({ steps: steps.toSpliced(at, 0, only) }),
      conditions,
    });
    expect(nextInOrder(within(1), run([{ step: 'tell' }], within(1)))?.id).toBe('lock');
    expect(nextInOrder(within(3), run(toOpen.slice(0, 3), within(3)))?.id).toBe('only');
    expect(nextInOrder(within(0), run([], within(0)))?.id).toBe('tell');
  });

  it('starts a branch afresh that is gone into from within it, so that nothing winds up', () => {
    const again = stepOf({ id: 'leave', answers: { still: { branch: 'call' }, over: {} } });
    const sheet = sheetWith({ branches: { call: { then: 'retry', steps: [again] } } });
    const within = { sheet, conditions };
    const still = { step: 'leave', answer: 'still' };
    const events = [...toOpen.slice(0, 3), { step: 'tap', answer: 'runs' }, still, still];
    const wound = run(events, within);
    expect(wound.frames.map(({ branch }) => branch)).toEqual([null, 'call']);
    const over = apply(within, wound, { step: 'leave', answer: 'over' });
    expect(nextInOrder(within, over)?.id).toBe('tap');
  });

  it.each([
    [{ bar: 2 }, 'figure'],
    [{ bar: 1.9 }, undefined],
    [{ bar: 'unknown' }, undefined],
    [undefined, undefined],
  ])('takes %j for a vessel to be set to 1.8 bar: refused for %s', (input, why) => {
    const steps = [stepOf({ id: 'set', setsTo: 'gas' })];
    const within = { sheet: sheetWith({ steps }), conditions, pressures: { gas: 1.8 } };
    expect(run([{ step: 'set', input }], within).refused?.why).toBe(why);
  });

  it.each([
    [{ bar: 0 }, 'figure'],
    [{ bar: 1.4 }, undefined],
    [{ bar: 900 }, 'too-high'],
  ])('takes %j for a vessel whose charge the plant does not say: refused for %s', (input, why) => {
    const steps = [stepOf({ id: 'set', setsTo: 'gas' })];
    const within = { sheet: sheetWith({ steps }), conditions, pressures: {} };
    expect(run([{ step: 'set', input }], within).refused?.why).toBe(why);
  });

  it.each([
    [{ bar: { G1: 6, G2: 16 } }, undefined, []],
    [{ bar: { G1: 6.1, G2: 16 } }, 'past-scale', ['G1']],
    [{ bar: { G1: 61, G2: 17 } }, 'past-scale', ['G1', 'G2']],
    [{ bar: { G1: 'unknown' } }, undefined, []],
    [{ bar: 16 }, undefined, []],
    [{ bar: 16.1 }, 'too-high', []],
    [{ lostBar: 16.1, minutes: 10 }, 'too-high', []],
    [{ litres: 90, seconds: 60 }, undefined, []],
    ['900', undefined, []],
  ])('reads %j where the gauges end at 6 and 16 bar: refused for %s', (input, why, needs) => {
    const within = {
      ...{ sheet: sheetWith({ steps: [stepOf({ id: 'read', input: 'value' })] }), conditions },
      scales: { G1: 6, G2: 16 },
    };
    const { refused } = run([{ step: 'read', input }], within);
    expect(refused?.why).toBe(why);
    expect(refused?.needs ?? []).toEqual(needs);
  });
});
