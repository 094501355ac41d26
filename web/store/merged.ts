import type { Answer } from '../../shared/case/answer.ts';

interface Answered {
  readonly answers: readonly Answer[];
  readonly sent: number;
}

/** The case with the server's list first, then what the server has not got yet, each answer once. */
export function merged<C extends Answered>(kept: C, theirs: readonly Answer[]): C {
  const known = new Set(theirs.map(({ answerId }) => answerId));
  const ours = kept.answers.filter(({ answerId }) => !known.has(answerId));
  return { ...kept, answers: [...theirs, ...ours], sent: theirs.length };
}
