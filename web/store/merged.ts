import type { Answer } from '../../shared/case/answer.ts';
import type { KeptAnswer } from './kept.ts';

interface Answered {
  readonly answers: readonly KeptAnswer[];
  readonly sent: number;
}

/** What the server has or is to have, in its order. */
export const forServer = ({ answers }: Pick<Answered, 'answers'>): readonly Answer[] =>
  answers.filter(({ refused }) => !refused);

/**
 * The case with the server's list first, then what the server has not got yet, each answer once. What it refused stays
 * behind the answer it was given after: at the end it would outdo what was answered in its stead.
 */
export function merged<C extends Answered>(kept: C, theirs: readonly Answer[]): C {
  const known = new Set(theirs.map(({ answerId }) => answerId));
  const ours = kept.answers.filter(({ answerId }) => !known.has(answerId));
  const answers: KeptAnswer[] = [...theirs, ...forServer({ answers: ours })];
  for (const answer of ours) {
    if (!answer.refused) continue;
    const before = kept.answers[kept.answers.indexOf(answer) - 1];
    answers.splice(answers.findIndex((one) => one.answerId === before?.answerId) + 1, 0, answer);
  }
  return { ...kept, answers, sent: theirs.length };
}
