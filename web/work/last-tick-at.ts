import type { WorkEvent } from '../../shared/work/state.ts';

/** When the last step of a job was ticked; null: none was, or nobody wrote down the time. */
export const lastTickAt = (counted: readonly { readonly event: WorkEvent }[]): string | null =>
  counted.findLast(({ event }) => 'step' in event)?.event.at ?? null;
