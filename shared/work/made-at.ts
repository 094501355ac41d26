import { apply, replay } from './apply.ts';
import { standing } from './conditions.ts';
import type { WorkContext, WorkEvent } from './state.ts';

/** When each condition that stands was made, or last looked at by who went on; null where nobody wrote down the time. */
export function madeAt(
  context: WorkContext,
  events: readonly WorkEvent[],
): Readonly<Record<string, string | null>> {
  let state = replay(context, []);
  let times: Readonly<Record<string, string | null>> = {};
  for (const event of events) {
    state = apply(context, state, event);
    const now = event.at ?? null;
    const before = 'stillSo' in event ? {} : times;
    times = Object.fromEntries(
      standing(state.made, context.conditions).map((id) => [id, before[id] ?? now]),
    );
  }
  return times;
}
