import { describe, expect, it } from 'vitest';
import { answersOf } from '../../shared/work/answers.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import { stands } from '../../shared/work/conditions.ts';
import { offered } from '../../shared/work/next.ts';
import { search } from '../../shared/work/search.ts';
import { sheetOf } from '../../shared/work/sheet.ts';
import type { WorkContext, WorkEvent, WorkState } from '../../shared/work/state.ts';
import { rules, work } from './files.ts';
import { firstTick } from './first-tick.ts';
import { jobsOnReadyMade } from './jobs-on-ready-made.ts';
import * as made from './made-sheet.ts';

const jobsOn = jobsOnReadyMade.map(({ job, part, plant, features }): [string, WorkContext] => [
  `${job} on ${part}, ${plant.name}`,
  { sheet: sheetOf(work, job, features), conditions: work.conditions },
]);

/** Every step with every answer along the way that the first answers lead. */
function alongTheWay(context: WorkContext, see: (before: WorkState, tick: WorkEvent) => void) {
  let state = replay(context, []);
  for (let step = offered(context, state); step; step = offered(context, state)) {
    const ids = Object.keys(step.answers);
    const ticks =
      ids.length === 0 ? [{ step: step.id }] : ids.map((answer) => ({ step: step.id, answer }));
    for (const tick of ticks) see(state, tick);
    state = apply(context, state, ticks[0]!);
  }
}

const behaviour = ({ frames, made, advice }: WorkState) => ({ frames, made, advice });

describe('a tick taken back', () => {
  it('can be at every step of every job, and leaves a way on to the end', () => {
    for (const [name, context] of jobsOn) {
      alongTheWay(context, (before, tick) => {
        const after = apply(context, before, tick);
        if (after.ended) return;
        const step = 'step' in tick ? tick.step : '';
        const back = apply(context, after, { takeBack: step });
        expect(back.refused, `${name}: ${step}`).toBeNull();
        expect(offered(context, back), `${name}: ${step}`).not.toBeNull();
        expect(back.advice).toEqual(before.advice);
        expect(back.ticks).toEqual(before.ticks);
      });
    }
  });

  it('is as if never ticked, but for what others could have undone meanwhile', () => {
    for (const [name, context] of jobsOn) {
      alongTheWay(context, (before, tick) => {
        const after = apply(context, before, tick);
        if (after.ended) return;
        const back = apply(context, after, { takeBack: 'step' in tick ? tick.step : '' });
        const gone = before.made.filter((id) => !after.made.includes(id));
        const doubtful = gone.some(
          (id) => work.conditions[id]?.checkAgainAfterMinutes !== undefined,
        );
        if (!doubtful) expect(behaviour(back), name).toEqual(behaviour(before));
        else
          for (const id of gone.filter((id) => work.conditions[id]?.checkAgainAfterMinutes))
            expect(back.made, name).not.toContain(id);
      });
    }
  });

  it('after another can be, back to the start of the job', () => {
    const [, context] = jobsOn.find(([name]) => name.startsWith('change-sediment'))!;
    let state = replay(context, []);
    for (let n = 0; n < 6; n++) {
      const step = offered(context, state)!;
      state = apply(context, state, firstTick(step));
    }
    while (state.before) state = apply(context, state, { takeBack: state.ticks.at(-1)!.step });
    expect(behaviour(state)).toEqual(behaviour(replay(context, [])));
  });

  it('leaves nothing in the case or among the notes of what was read or answered with it', () => {
    const [, context] = jobsOn.find(([name]) => name.startsWith('test-precharge'))!;
    const step = context.sheet.steps.find(({ question }) => question !== undefined)!;
    let state = replay(context, []);
    for (
      let next = offered(context, state);
      next && next.id !== step.id;
      next = offered(context, state)
    ) {
      state = apply(context, state, firstTick(next));
    }
    const tick = { ...firstTick(step), input: { bar: 1.4 } };
    const told = (at: WorkState) =>
      answersOf({ context, part: null, advice: [] }, at, [tick], rules.questions, 'danger');
    const after = apply(context, state, tick);
    expect(told(after)).toHaveLength(1);
    expect(told(apply(context, after, { takeBack: step.id }))).toEqual([]);
  });

  it('asks to check again where an hour went by since the tick', () => {
    const events = [...made.toOpen, { step: 'open' }].map((event) => ({
      ...event,
      at: '2026-11-25T09:00:00Z',
    }));
    const after = (at: string) => made.next([...events, { takeBack: 'open', at }]);
    expect(after('2026-11-25T09:59:59Z')).toBe('open');
    expect(after('2026-11-25T10:00:00Z')).toBe('lock');
    const stripped = made.run([...events, { takeBack: 'open', at: '2026-11-25T10:00:00Z' }]);
    expect(stripped.refused?.step).toBe('open');
  });

  it('cannot be where something was lost since, or where another was ticked last', () => {
    const lost = made.run([...made.toOpen, { lost: 'far' }]);
    expect(lost.before).toBeNull();
    expect(apply(made.context, lost, { takeBack: 'far' }).refused?.step).toBe('far');
    expect(made.run([...made.toOpen, { takeBack: 'bleed' }]).refused?.step).toBe('bleed');
  });

  const cracked = made.sheetWith({
    steps: made.steps.flatMap((step) =>
      step.id === 'feed'
        ? [made.stepOf({ id: 'crack', does: ['crack-supply'], loses: ['shut'] }), step]
        : [step],
    ),
  });

  it('puts what the step took away in doubt, as it may have been done: the valve is shut again', () => {
    const within = { sheet: cracked, conditions: made.conditions };
    const ticked = [...made.toOpen, { step: 'open' }, { step: 'tap-shut' }, { step: 'crack' }];
    const back = made.run([...ticked, { takeBack: 'crack' }], within);
    expect(stands('shut', back.made, made.conditions)).toBe(false);
    expect(back.struck).toContainEqual({ condition: 'shut', because: 'taken-back' });
    expect(offered(within, back)?.id).toBe('shut');
  });

  it('is played by the proof: where nothing is checked again, a valve opened by a step taken back is found', () => {
    expect(search(cracked, made.conditions).breaches).toEqual([]);
    const unchecked = {
      ...made.conditions,
      shut: { ...made.conditions.shut!, checkAgainAfterMinutes: undefined },
    };
    const { breaches } = search(cracked, unchecked, 'breaks');
    expect(breaches.map(({ message, path }) => `${message} after ${path.at(-1)}`)).toContain(
      'says "shut" when it is not so after crack (taken back)',
    );
  });
});
