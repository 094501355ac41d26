import type { Answer } from '../case/answer.ts';
import type { Taps } from '../case/taps.ts';
import type { Step } from '../interview/step.ts';
import type { Question, RuleSet } from '../ruleset/schema.ts';
import type { StepView } from './view.ts';

/**
 * The question of the interview whose fields a step's entry is typed into, so that readings are asked for in the same
 * way and units everywhere; null for a tick or a note.
 */
export function entryOf(
  input: StepView['input'],
  answers: readonly Answer[],
  rules: RuleSet,
): Step | null {
  const ofKind = (kind: Question['kind']): string =>
    Object.keys(rules.questions).find((id) => rules.questions[id]?.kind === kind) ?? '';
  switch (input) {
    case 'readings-closed':
      return { question: ofKind('readings'), taps: 'closed' };
    case 'readings-open':
      return { question: ofKind('readings'), taps: tapsBefore(answers, ofKind('readings')) };
    case 'flow':
      return { question: ofKind('flow') };
    case 'value':
      return { question: ofKind('pressure') };
    default:
      return null;
  }
}

/** The taps of the latest gauges read with water running: the same tap proves the work. */
function tapsBefore(answers: readonly Answer[], readings: string): Taps {
  const latest = answers
    .filter(({ question }) => question === readings)
    .map(({ value }) => value as { readonly taps?: Taps; readonly bar?: unknown } | null)
    // "I do not know" leaves nothing to compare with
    .findLast((read) => read?.taps !== 'closed' && typeof read?.bar === 'object');
  return latest?.taps ?? { open: 1 };
}
