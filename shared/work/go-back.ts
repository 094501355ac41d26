import { stands, without } from './conditions.ts';
import { arrived, makesOf, stepsOf, type WorkContext, type WorkState } from './state.ts';

/**
 * Where work goes on after conditions were lost against the plan (`made`: those left). Back to the first step that made
 * one of them, doing everything after it again; or, where there is no going back because a part is already open or
 * closed up again, aside to the branch that mends it.
 */
export function goBack(context: WorkContext, state: WorkState, made: readonly string[]): WorkState {
  const lost = state.made.filter((id) => !made.includes(id));
  const branch = mendingBranch(context, made);
  if (branch !== undefined) {
    const before = state.frames.filter((frame) => frame.branch !== branch);
    const unmended = state.frames.flatMap((frame) =>
      frame.branch === branch ? (frame.mending ?? []) : [],
    );
    const mending = [...new Set([...unmended, ...lost])].filter((id) => !made.includes(id)).sort();
    return { ...state, made, frames: [...before, { branch, at: 0, mending }] };
  }
  for (let f = state.frames.length - 1; f >= 0; f--) {
    const frame = state.frames[f];
    if (!frame) continue;
    const done = stepsOf(context.sheet, frame).slice(0, frame.at);
    // what is made twice on a sheet was made the last time: never back past what came between
    const makers = lost
      .map((id) => done.findLastIndex((step) => makesOf(step).includes(id)))
      .filter((i) => i >= 0);
    if (makers.length === 0) continue;
    const first = Math.min(...makers);
    const undone = done.slice(first).flatMap(makesOf);
    const left = without(undone, made, context.conditions);
    const back = {
      ...state,
      made: left,
      frames: arrived([...state.frames.slice(0, f), { ...frame, at: first }], state.lastAt),
    };
    // what went with the undone steps may have been made still earlier
    return left.length < made.length ? goBack(context, back, left) : back;
  }
  return { ...state, made };
}

function mendingBranch(
  { conditions, sheet }: WorkContext,
  made: readonly string[],
): string | undefined {
  const id = Object.keys(conditions).find(
    (each) => conditions[each]?.mends && stands(each, made, conditions),
  );
  const branch = id === undefined ? undefined : conditions[id]?.mends;
  return branch !== undefined && sheet.branches[branch] ? branch : undefined;
}
