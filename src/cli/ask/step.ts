import type { Result } from '../../../shared/diagnosis/result.ts';
import { sayReadings } from '../../../shared/diagnosis/say.ts';
import { answerText, stepText } from '../../../shared/interview/answer-text.ts';
import { type Form, formOf } from '../../../shared/interview/form.ts';
import { type Given, givenOf, type Step, stepKey } from '../../../shared/interview/step.ts';
import type { Units } from '../../../shared/ruleset/figures.ts';
import type { Say } from '../io.ts';
import type { Knowledge } from '../knowledge.ts';
import type { Session } from './session.ts';

/** What is asked now: an earlier answer being changed, or the next question. */
export interface Todo {
  readonly step: Step;
  readonly text: string;
  readonly why: string;
  readonly form: Form;
  /** the answer given before, when it is being changed */
  readonly before: Given | null;
}

/** null: nothing more is worth asking. */
export function todoOf(
  session: Session,
  result: Result,
  knowledge: Knowledge,
  say: Say,
): Todo | null {
  const { rules, words } = knowledge;
  const { plant, interview, audience } = session;
  const { changing, answers } = interview.context;
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
  if (changing) {
    const before = givenOf(answers, rules).find((one) => stepKey(one.step) === stepKey(changing));
    const spoken = words.questions[changing.question];
    return {
      ...{ step: changing, before: before ?? null, why: spoken?.why ?? '' },
      text:
        sayReadings(words, changing.taps, audience) ?? spoken?.ask[audience] ?? changing.question,
      form: formOf(changing, { gauges }, plant, rules, words, say),
    };
  }
  const { next } = result;
  if (!next) return null;
  const step: Step = next.ask
    ? { question: next.question, taps: next.ask.taps }
    : { question: next.question };
  return {
    ...{ step, before: null, text: next.text, why: next.why },
    form: formOf(step, next.ask, plant, rules, words, say),
  };
}

/** "Smell: Rotten eggs" */
export function givenText(given: Given, { rules, words }: Knowledge, units: Units): string {
  return `${stepText(given.step, words)}: ${answerText(given, rules, words, units)}`;
}

/** The answer before the one asked now; null at the first. */
export function before(given: readonly Given[], todo: Todo | null): Step | null {
  if (!todo?.before) return given.at(-1)?.step ?? null;
  const key = stepKey(todo.step);
  const place = given.findIndex((one) => stepKey(one.step) === key);
  return given[place - 1]?.step ?? null;
}
