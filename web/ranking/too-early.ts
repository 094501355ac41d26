import type { Looked } from '../brain/protocol.ts';

/** Who is in danger, who drinks the water and what is wrong come first; before that, frequencies alone would speak. */
const OPENING = 3;

export const isTooEarly = ({ earlier, isTold }: Pick<Looked, 'earlier' | 'isTold'>): boolean =>
  !isTold && earlier.length < OPENING;
