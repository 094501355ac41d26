import { describe, expect, it } from 'vitest';
import { apply, replay } from '../../shared/work/apply.ts';
import { doubtfulAfter, standing, stands, without } from '../../shared/work/conditions.ts';
import { type FreeFeatures, withDerived } from '../../shared/work/features.ts';
import { missingFor, nextInOrder, offered } from '../../shared/work/next.ts';
import {
  condition,
  stepAnswer,
  step as stepTable,
  type WorkRules,
} from '../../shared/work/schema.ts';
import { search } from '../../shared/work/search.ts';
import type { Sheet, SheetStep } from '../../shared/work/sheet.ts';
import type { WorkContext, WorkEvent } from '../../shared/work/state.ts';

/** A sheet small enough to follow by hand: lock, try, shut, two signs of no pressure, open, close, back in service. */
const conditionsOf = (tables: Record<string, object>): WorkRules['conditions'] =>
  Object.fromEntries(Object.entries(tables).map(([id, table]) => [id, condition.parse(table)]));
const conditions = conditionsOf({
  told: {},
  locked: { claims: 'pump-dead', checkAgainAfterMinutes: 60 },
  shut: { claims: 'supply-shut', checkAgainAfterMinutes: 60 },
  far: { claims: 'far-shut', checkAgainAfterMinutes: 60 },
  'sign-tap': { lostWith: ['locked', 'shut'], checkAgainAfterMinutes: 60 },
  'sign-bleed': { lostWith: ['locked', 'shut'], checkAgainAfterMinutes: 60 },
  'sign-gauge': { lostWith: ['locked', 'shut'] },
  dry: { claims: 'no-pressure', atLeast: 2, of: ['sign-tap', 'sign-bleed', 'sign-gauge'] },
});

const stepOf = (given: {
  readonly answers?: object;
  readonly [key: string]: unknown;
}): SheetStep => {
  const answers = Object.entries(given.answers ?? {}).map(
    ([id, answer]) => [id, stepAnswer.parse(answer)] as const,
  );
  const { by, words, ...table } = stepTable.parse({ ...given, answers: {} });
  return {
    ...table,
    answers: Object.fromEntries(answers),
    by: by ?? 'householder',
    words: words ?? table.id,
    origin: { section: 'jobs', id: 'job', path: [] },
  };
};
const features = withDerived({
  ...{ supply: 'valve', secondValve: false, far: true, bleed: true, gauge: true, gauges: true },
  ...{ drain: false, vessel: 'none', uv: 'none', carbonAfterUv: false, carbon: false },
  ...{ bypass: false, pump: true, submersible: false, control: 'flow-controller' },
  ...{ mains: false, strainer: false, footValve: false },
} as FreeFeatures);

const seen = (by: string) => ({ shows: { by, fact: 'no-pressure' } });
const steps: SheetStep[] = [
  { id: 'tell', makes: ['told'] },
  { id: 'lock', does: ['lock-main-switch'], makes: ['locked'] },
  { id: 'shut', does: ['shut-supply'], makes: ['shut'] },
  {
    id: 'tap',
    // with the house shut off a dry tap would say nothing
    does: ['open-far', 'open-tap'],
    loses: ['far'],
    answers: {
      dry: { makes: ['sign-tap'], ...seen('tap') },
      runs: { shows: { by: 'tap', fact: 'pressure' }, branch: 'call' },
    },
  },
  {
    id: 'bleed',
    does: ['press-bleed'],
    answers: {
      silent: { makes: ['sign-bleed'], ...seen('bleed') },
      hisses: { shows: { by: 'bleed', fact: 'pressure' }, branch: 'call' },
    },
  },
  { id: 'far', does: ['shut-far'], makes: ['far'] },
  { id: 'open', needs: ['locked', 'shut', 'far', 'dry'], does: ['open-wetted', 'close-wetted'] },
  { id: 'tap-shut', does: ['shut-tap'] },
  {
    id: 'feed',
    loses: ['shut', 'locked', 'far'],
    does: ['open-supply', 'open-far', 'power-on', 'let-air-out', 'check-leaks'],
  },
].map(stepOf);
const branches: Sheet['branches'] = {
  call: { then: 'hand-over', steps: [stepOf({ id: 'leave', makes: ['told'] })] },
};
const sheetWith = (changed: Partial<Sheet> = {}): Sheet => ({
  ...{ job: 'job', by: 'householder', found: [], features, steps, branches },
  ...changed,
});
const context: WorkContext = { sheet: sheetWith(), conditions };
const run = (events: WorkEvent[], within = context) => replay(within, events);
const toOpen: WorkEvent[] = [
  { step: 'tell' },
  { step: 'lock' },
  { step: 'shut' },
  { step: 'tap', answer: 'dry' },
  { step: 'bleed', answer: 'silent' },
  { step: 'far' },
];
const next = (events: WorkEvent[]) => nextInOrder(context, run(events))?.id;

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
      expect(state.refused).toEqual({ step: 'tap', needs: [] });
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
});

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
    expect(refused.refused).toEqual({ step: 'bleed', needs: [] });
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
