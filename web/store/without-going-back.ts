import type { KeptCase } from './kept.ts';

type Shown = Pick<KeptCase, 'answers' | 'plant'> & Partial<Pick<KeptCase, 'changedAt'>>;

/**
 * The kept case as it is on the disk, with the very list and plant of before where they say the same: what comes back
 * from the disk is a copy each time, and a new one would be judged again. An answer stands on the screen before it is on
 * the disk; a copy written in between (the server just took an earlier one) does not take it back. A copy that says
 * nothing new is not drawn again.
 */
export function withoutGoingBack<C extends Shown>(before: C | null | undefined, after: C): C {
  if (!before) return after;
  const isOlderOrSame = after.answers.every(
    ({ answerId, refused }, i) =>
      answerId === before.answers[i]?.answerId && refused === before.answers[i]?.refused,
  );
  const hasSamePlant = JSON.stringify(before.plant) === JSON.stringify(after.plant);
  const now = {
    ...after,
    answers: isOlderOrSame ? before.answers : after.answers,
    plant: hasSamePlant ? before.plant : after.plant,
  };
  return said(now) === said(before) ? before : now;
}

/** All but when it was written. */
const said = (kept: Shown): string => JSON.stringify({ ...kept, changedAt: '' });
