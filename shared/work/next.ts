import { stands } from './conditions.ts';
import type { SheetStep } from './sheet.ts';
import { stepsOf, type WorkContext, type WorkState } from './state.ts';

/** The next step in order, whether or not its needs are made. */
export function nextInOrder({ sheet }: WorkContext, state: WorkState): SheetStep | null {
  const top = state.frames.at(-1);
  if (!top || state.ended) return null;
  return stepsOf(sheet, top)[top.at] ?? null;
}

/** Needs of a step that do not stand. */
export function missingFor(context: WorkContext, state: WorkState, step: SheetStep): string[] {
  return step.needs.filter((need) => !stands(need, state.made, context.conditions));
}

/** What keeps work from going on: needs of the next step, or else what was lost and is being made again. */
export function lackingIn(context: WorkContext, state: WorkState): string[] {
  const next = nextInOrder(context, state);
  const missing = next ? missingFor(context, state, next) : [];
  return missing.length > 0 ? missing : state.struck.map(({ condition }) => condition);
}

/** The one step that is offered: the next in order, and only when all it needs stands. */
export function offered(context: WorkContext, state: WorkState): SheetStep | null {
  const step = nextInOrder(context, state);
  return step && missingFor(context, state, step).length === 0 ? step : null;
}

/** When the wait of a step is over (RFC 3339); null where nothing is waited for, or nobody knows since when. */
export function waitOverAt({ frames }: WorkState, { waits, minutes }: SheetStep): string | null {
  const since = Date.parse(frames.at(-1)?.since ?? '');
  return waits && !Number.isNaN(since) ? new Date(since + minutes * 60_000).toISOString() : null;
}
