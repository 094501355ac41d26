import type { Answer } from '../case/answer.ts';
import type { Taps } from '../case/taps.ts';
import type { Field } from '../interview/form.ts';
import type { Step } from '../interview/step.ts';
import type { Question, RuleSet } from '../ruleset/schema.ts';
import type { StepView } from './view.ts';

/**
 * The question of the interview whose fields a step's entry is typed into, so that readings are asked for in the same
 * way and units everywhere; null for a tick or a note. A test's figure is asked for as the question that it answers.
 */
export function entryOf(
  { input, question }: Pick<StepView, 'input' | 'question'>,
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
      return question === null ? null : { question };
    default:
      return null;
  }
}

/** The fields without the words that stand for a figure in the interview: at a step these are answers of its own. */
export const figuresOnly = (fields: readonly Field[]): Field[] =>
  fields.map((field) => (field.kind === 'figure' ? { ...field, orWords: [] } : field));

/** The taps of the latest gauges read with water running: the same tap proves the work. */
function tapsBefore(answers: readonly Answer[], readings: string): Taps {
  const latest = answers
    .filter(({ question }) => question === readings)
    .map(({ value }) => value as { readonly taps?: Taps; readonly bar?: unknown } | null)
    // "I do not know" leaves nothing to compare with
    .findLast((read) => read?.taps !== 'closed' && typeof read?.bar === 'object');
  return latest?.taps ?? { open: 1 };
}
