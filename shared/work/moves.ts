import { apply, replay } from './apply.ts';
import { standing } from './conditions.ts';
import { Interned, once } from './memo.ts';
import { offered } from './next.ts';
import type { Act, Fact, Shows } from './schema.ts';
import type { SheetStep } from './sheet.ts';
import type { Tick, WorkContext, WorkState } from './state.ts';

/** One thing that can happen next in a state of the sheet. */
export interface Move {
  readonly how: string;
  readonly step: SheetStep | null;
  /** what is done before the answer is seen, what the answer shows, and what is done upon it */
  readonly does: readonly Act[];
  readonly shows: Shows | undefined;
  readonly then: readonly Act[];
  /** a break, or a condition found lost, in place of a step */
  readonly upset: 'break' | Fact | null;
  readonly next: number;
  /** where taking the step back leads */
  readonly back: number | null;
}

/** The sheet as a graph of numbered states, walked with the same functions that serve people. */
export interface Moves {
  start(hasUnsafeWater: boolean): number;
  stateAt(id: number): WorkState;
  movesFrom(id: number): readonly Move[];
  /** the claims that stand in a state */
  claimsAt(id: number): readonly (readonly [string, Fact])[];
}

const aDay = 24 * 60;

/** @param upsets what may go wrong between steps: only long breaks, or also each condition found lost by itself */
export function movesOf(context: WorkContext, upsets: 'breaks' | 'all'): Moves {
  const states = new Interned(keyOf);
  const claimsAt = once((id) => claims(context, states.at(id)));
  const movesFrom = once((id): readonly Move[] => {
    const state = states.at(id);
    if (state.ended) return [];
    return [
      ...stepMoves(context, state, states),
      ...upsetMoves(context, state, states, claimsAt(id), upsets),
    ];
  });
  return {
    start: (hasUnsafeWater) => states.idOf(replay(context, [], hasUnsafeWater ? ['microbes'] : [])),
    stateAt: (id) => states.at(id),
    movesFrom,
    claimsAt,
  };
}

function stepMoves(context: WorkContext, state: WorkState, states: Interned<WorkState>): Move[] {
  const step = offered(context, state);
  if (!step) return [];
  const answers = Object.entries(step.answers);
  const plain = { step, does: step.does, upset: null };
  const there = (tick: Tick) => {
    const after = apply(context, state, tick);
    const back = after.ended ? null : states.idOf(apply(context, after, { takeBack: step.id }));
    return { next: states.idOf(after), back };
  };
  if (answers.length === 0) {
    const to = there({ step: step.id });
    return [{ ...plain, how: step.id, shows: undefined, then: [], ...to }];
  }
  return answers.map(([answer, chosen]) => ({
    ...plain,
    how: `${step.id}: ${answer}`,
    shows: chosen.shows,
    then: chosen.does,
    ...there({ step: step.id, answer }),
  }));
}

function upsetMoves(
  context: WorkContext,
  state: WorkState,
  states: Interned<WorkState>,
  claimed: readonly (readonly [string, Fact])[],
  upsets: 'breaks' | 'all',
): Move[] {
  if (claimed.length === 0) return [];
  const none = { step: null, does: [], shows: undefined, then: [] };
  const rested = states.idOf(apply(context, state, { pauseMinutes: aDay }));
  const pause: Move = { ...none, how: '(a day passes)', upset: 'break', next: rested, back: null };
  if (upsets === 'breaks') return [pause];
  const losable: readonly Fact[] = ['pump-dead', 'supply-shut', 'far-shut', 'no-pressure'];
  const losses = claimed
    .filter(([, fact]) => losable.includes(fact))
    .map(([id, fact]): Move => {
      const next = states.idOf(apply(context, state, { lost: id }));
      return { ...none, how: `(${id} is lost)`, upset: fact, next, back: null };
    });
  return [pause, ...losses];
}

function claims(context: WorkContext, state: WorkState): (readonly [string, Fact])[] {
  return standing(state.made, context.conditions).flatMap((id) => {
    const fact = context.conditions[id]?.claims;
    return fact === undefined ? [] : [[id, fact] as const];
  });
}

/** Equal for states that behave alike from here on. */
function keyOf(state: WorkState): string {
  return JSON.stringify([state.frames, state.made, state.advice, state.ended]);
}
