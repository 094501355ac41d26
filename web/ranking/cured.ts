import type { ShownJob } from '../brain/protocol.ts';
import type { DoneWork, KeptCase } from '../store/kept.ts';

/** The job just done, while nothing was told since: the questions begin anew after it. */
export function justDone({ answers, done = [] }: KeptCase): DoneWork | null {
  const last = done.at(-1);
  // clocks of different places write the same moment differently
  const toldAt = Date.parse(answers.at(-1)?.at ?? '');
  return last?.proof && !(toldAt > Date.parse(last.at)) ? last : null;
}

/** Whether the job just done ended the trouble: then no cause is named, and only what is due anyway is planned. */
export const isCured = (kept: KeptCase): boolean => justDone(kept)?.proof?.outcome === 'cured';

export const stillToDo = (plan: readonly ShownJob[], kept: KeptCase): readonly ShownJob[] =>
  isCured(kept) ? plan.filter(({ overdue }) => overdue) : plan;
