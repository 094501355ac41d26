import type { SheetStep } from '../../shared/work/sheet.ts';
import type { Tick } from '../../shared/work/state.ts';

/** A step ticked with what is said at it, or its first answer where nothing is; a plain tick where it has none. */
export function firstTick(step: SheetStep, says: Readonly<Record<string, string>> = {}): Tick {
  const answer = says[step.id] ?? Object.keys(step.answers)[0];
  return { step: step.id, ...(answer !== undefined && { answer }) };
}
