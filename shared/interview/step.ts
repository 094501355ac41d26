import type { Answer } from '../case/answer.ts';
import { beforeNewTrouble } from '../case/new-trouble.ts';
import { type Taps, tapsKey } from '../case/taps.ts';
import { tellsOfWork } from '../case/work-done.ts';
import type { RuleSet } from '../ruleset/schema.ts';

/** One thing to ask or to change: a question, and for gauge readings the tap state it is about. */
export interface Step {
  readonly question: string;
  readonly taps?: Taps | undefined;
}

/** An answer that stands: not taken back, and not given before work that started the evidence afresh. */
export interface Given {
  readonly step: Step;
  readonly value: unknown;
}

/** One text per step, so that a later answer to the same step replaces the earlier. */
export function stepKey({ question, taps }: Step): string {
  return taps === undefined ? question : `${question} ${tapsKey(taps)}`;
}

/** The step that an answer belongs to: readings are kept one per tap state. */
function stepOf({ question, value }: Answer, rules: RuleSet): Step {
  const perTaps = rules.questions[question]?.kind === 'readings';
  if (!perTaps || typeof value !== 'object' || value === null) return { question };
  return { question, taps: (value as { readonly taps: Taps }).taps };
}

/** The value that says "I do not know" for a step: one tap state that cannot be read leaves the others standing. */
export function unknownOf({ taps }: Step): unknown {
  return taps === undefined ? 'unknown' : { taps, bar: 'unknown' };
}

/** The value that takes an answer back. A reading has no way back of its own, so it becomes one that cannot be read. */
export function takenBackOf(step: Step): unknown {
  return step.taps === undefined ? null : unknownOf(step);
}

/** The answers that stand, in the order in which they were first given. */
export function givenOf(answers: readonly Answer[], rules: RuleSet): Given[] {
  const given = new Map<string, Given>();
  const past = beforeNewTrouble(answers, rules);
  for (const [i, answer] of answers.entries()) {
    if (past.has(i)) continue;
    if (tellsOfWork(answer)) given.clear();
    const question = rules.questions[answer.question];
    if (!question) continue;
    const step = stepOf(answer, rules);
    if (question.kind === 'readings' && step.taps === undefined) {
      // unknown or taken back for the gauges as a whole: no tap state stands any more
      for (const [key, { step: old }] of given) {
        if (old.question === answer.question) given.delete(key);
      }
    }
    if (answer.value === null) given.delete(stepKey(step));
    else given.set(stepKey(step), { step, value: answer.value });
  }
  return [...given.values()];
}
