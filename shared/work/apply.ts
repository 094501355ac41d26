import { named } from '../common/named.ts';
import { doubtfulAfter, standing, stands, without } from './conditions.ts';
import { goBack } from './go-back.ts';
import { lackingIn, offered, waitOverAt } from './next.ts';
import { isTooHigh, pastScale } from './scales.ts';
import type { StepAnswer } from './schema.ts';
import type { SheetStep } from './sheet.ts';
import {
  arrived,
  type Frame,
  makesOf,
  type Refusal,
  startOf,
  stepsOf,
  type Tick,
  type WorkContext,
  type WorkEvent,
  type WorkState,
} from './state.ts';

type Because = WorkState['struck'][number]['because'];

/** Rebuilds the state of a job from its events. `now` lets a break count before anything else is ticked. */
export function replay(
  context: WorkContext,
  events: readonly WorkEvent[],
  advice: WorkState['advice'] = [],
  now?: string,
): WorkState {
  const start = settle(context, startOf(advice));
  const state = events.reduce((before, event) => apply(context, before, event), start);
  return now === undefined ? state : breakUntil(context, state, now);
}

/** One event further. An event that cannot be taken leaves the state as it was, with `refused` saying why. */
export function apply(context: WorkContext, state: WorkState, event: WorkEvent): WorkState {
  if (state.ended === 'stopped') return state;
  const rested = event.at === undefined ? state : breakUntil(context, state, event.at);
  const base = { ...rested, refused: null, lastAt: event.at ?? rested.lastAt };
  if ('danger' in event) return { ...base, ended: 'stopped', danger: [...event.danger] };
  if (state.ended) return base;
  if ('lost' in event) return lose(context, base, [event.lost], 'reported');
  if ('pauseMinutes' in event) return pause(context, base, event.pauseMinutes);
  if ('stillSo' in event) return looked(context, base, event.stillSo);
  if ('takeBack' in event) return takeBack(context, base, event.takeBack);
  return tick(context, base, event);
}

function breakUntil(context: WorkContext, state: WorkState, at: string): WorkState {
  if (state.lastAt === null) return state;
  const minutes = (Date.parse(at) - Date.parse(state.lastAt)) / 60_000;
  return minutes > 0 ? { ...pause(context, state, minutes), lastAt: at } : state;
}

function pause(context: WorkContext, state: WorkState, minutes: number): WorkState {
  return lose(context, state, doubtfulAfter(minutes, state.made, context.conditions), 'break');
}

/**
 * Somebody goes on who made nothing of this themselves: what they did not find so is lost, and no tick of before is theirs
 * to take back.
 */
function looked(context: WorkContext, state: WorkState, found: readonly string[]): WorkState {
  const lost = state.made.filter((id) => !found.includes(id));
  return { ...lose(context, state, lost, 'reported'), before: null };
}

/** Conditions lost against the plan: they are made again before anything that needs them. */
function lose(
  context: WorkContext,
  state: WorkState,
  lost: readonly string[],
  because: Because,
): WorkState {
  const made = without(lost, state.made, context.conditions);
  if (state.ended || made.length === state.made.length) return state;
  const after = { ...settle(context, goBack(context, state, made)), before: null };
  return struckOut(context, state, after, because);
}

/** Writes down which conditions stood before and do not now. */
function struckOut(
  { conditions }: WorkContext,
  before: WorkState,
  after: WorkState,
  because: Because,
): WorkState {
  const standsNow = standing(after.made, conditions);
  const gone = standing(before.made, conditions).filter((id) => !standsNow.includes(id));
  const isNew = (id: string) => !after.struck.some(({ condition }) => condition === id);
  return {
    ...after,
    struck: [...after.struck, ...gone.filter(isNew).map((condition) => ({ condition, because }))],
  };
}

/**
 * Back to how it stood before the last tick. What that step took away may have been undone in part, so it is in doubt as
 * after a break.
 */
function takeBack(context: WorkContext, state: WorkState, stepId: string): WorkState {
  const { before, lastAt } = state;
  if (!before || state.ticks.at(-1)?.step !== stepId) return refuse(state, stepId, 'no-way-back');
  const taken = standing(before.made, context.conditions).filter(
    (id) => !stands(id, state.made, context.conditions),
  );
  const doubtful = doubtfulAfter(Number.POSITIVE_INFINITY, taken, context.conditions);
  const back = lose(context, before, doubtful, 'taken-back');
  return struckOut(context, state, { ...back, refused: null, lastAt }, 'taken-back');
}

const refuse = (
  state: WorkState,
  step: string,
  why: Refusal,
  needs: readonly string[] = [],
): WorkState => ({ ...state, refused: { step, why, needs } });

function tick(context: WorkContext, state: WorkState, ticked: Tick): WorkState {
  const { answer } = ticked;
  const step = offered(context, state);
  const chosen = answer === undefined ? undefined : named(step?.answers ?? {}, answer);
  const needsAnswer = step !== null && Object.keys(step.answers).length > 0;
  if (step?.id !== ticked.step) {
    const needs = lackingIn(context, state);
    return refuse(state, ticked.step, needs.length > 0 ? 'not-yet' : 'not-now', needs);
  }
  if (needsAnswer && !chosen) return refuse(state, step.id, 'answer');
  if (isEarly(state, step, chosen, ticked.at)) return refuse(state, step.id, 'too-early');
  if (isOff(step, ticked.input, context)) return refuse(state, step.id, 'figure');
  const { scales = {} } = context;
  const past = pastScale(ticked.input, scales);
  if (past.length > 0) return refuse(state, step.id, 'past-scale', past);
  if (isTooHigh(ticked.input, scales)) return refuse(state, step.id, 'too-high');
  const after = { ...state, ticks: [...state.ticks, ticked], before: state };
  return settle(context, take(context, after, step, chosen));
}

/** Done before its wait has gone by. What leads aside, or to others, need not wait: a light is still on, a pipe has split. */
function isEarly(
  state: WorkState,
  step: SheetStep,
  chosen: StepAnswer | undefined,
  at: string | undefined,
): boolean {
  const over = waitOverAt(state, step);
  if (over === null || at === undefined || chosen?.branch !== undefined) return false;
  return chosen?.ends !== 'handed-over' && Date.parse(at) < Date.parse(over);
}

/** A tyre gauge tells tenths (common practice); further off, it was not set or misread. */
const SET_WITHIN_BAR = 0.15;

function isOff({ setsTo }: SheetStep, input: unknown, { pressures }: WorkContext): boolean {
  const target = setsTo && pressures?.[setsTo];
  const bar = (input as { readonly bar?: unknown } | undefined)?.bar;
  if (setsTo === undefined || typeof bar !== 'number') return false;
  // where the plant does not say it, it is the maker's figure, and that is never none
  return target === undefined ? bar <= 0 : Math.abs(bar - target) > SET_WITHIN_BAR;
}

/** What a step and its answer do to conditions, advice and order. */
function take(
  context: WorkContext,
  state: WorkState,
  step: SheetStep,
  chosen: StepAnswer | undefined,
): WorkState {
  const aside = chosen?.branch;
  const outcomes = chosen ? [step, chosen] : [step];
  const lost = outcomes.flatMap((each) => each.loses);
  // a step that sends us aside is not done, so it makes nothing itself
  const makes = outcomes.flatMap((each) =>
    aside !== undefined && each === step ? [] : each.makes,
  );
  const raised = outcomes.flatMap((each) => each.raises);
  const earned = outcomes.flatMap((each) => each.earns);
  const made = [...new Set([...without(lost, state.made, context.conditions), ...makes])].sort();
  // what the sheet itself gives up now is no longer missed
  const kept = without(lost, Object.keys(context.conditions), context.conditions);
  return {
    ...state,
    frames: arrived(
      aside === undefined ? stepOn(state.frames) : goAside(state.frames, aside),
      state.lastAt,
    ),
    made,
    struck: state.struck.filter(
      ({ condition }) =>
        !stands(condition, made, context.conditions) && stands(condition, kept, context.conditions),
    ),
    advice: [
      ...new Set([...state.advice.filter((hazard) => !earned.includes(hazard)), ...raised]),
    ].sort(),
    ended: step.ends ?? chosen?.ends ?? null,
  };
}

/** Into a branch; one that is being gone already starts afresh, so that nothing winds up without end. */
function goAside(frames: WorkState['frames'], branch: string): WorkState['frames'] {
  const known = frames.findIndex((frame) => frame.branch === branch);
  return [...(known < 0 ? frames : frames.slice(0, known)), { branch, at: 0 }];
}

const stepOn = (frames: WorkState['frames']): WorkState['frames'] =>
  frames.map((frame, i) => (i === frames.length - 1 ? { ...frame, at: frame.at + 1 } : frame));

function isLeftOut(
  { conditions }: WorkContext,
  state: WorkState,
  step: SheetStep,
  frame: Frame,
): boolean {
  if (step.if !== undefined && !stands(step.if, state.made, conditions)) return true;
  const { mending } = frame;
  return mending !== undefined && !makesOf(step).some((id) => mending.includes(id));
}

/** Passes over steps that are left out as things stand, leaves branches at their end, and ends the sheet at its end. */
function settle(context: WorkContext, state: WorkState): WorkState {
  const top = state.frames.at(-1);
  if (state.ended || !top) return state;
  const step = stepsOf(context.sheet, top)[top.at];
  if (step) {
    return isLeftOut(context, state, step, top)
      ? settle(context, { ...state, frames: stepOn(state.frames) })
      : state;
  }
  if (top.branch === null) return { ...state, ended: 'done' };
  const frames = state.frames.slice(0, -1);
  switch (context.sheet.branches[top.branch]?.then) {
    case 'hand-over':
      return { ...state, frames, ended: 'handed-over' };
    case 'go-on':
      return settle(context, { ...state, frames: arrived(stepOn(frames), state.lastAt) });
    default:
      // what went wrong at the step itself begins its wait anew; what was only checked again does not
      return { ...state, frames: top.mending ? frames : arrived(frames, state.lastAt) };
  }
}
