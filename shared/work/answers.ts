import type { Answer } from '../case/answer.ts';
import type { Question } from '../ruleset/schema.ts';
import type { JobAtHand } from './job.ts';
import type { StepAnswer } from './schema.ts';
import type { Sheet, SheetStep } from './sheet.ts';
import type { Tick, WorkEvent, WorkState } from './state.ts';

/** Every step a sheet can lead to. */
export const stepsWithBranches = (sheet: Sheet): readonly SheetStep[] => [
  ...sheet.steps,
  ...Object.values(sheet.branches).flatMap(({ steps }) => steps),
];

/**
 * What a job adds to the case. A test adds its result; other work adds `work-done`, and after it what was read again,
 * which is the new clean baseline. What was found before the work stands before it. Danger signs go first: they stop
 * the interview too.
 *
 * @param questions the rule set's questions; a test's answer takes the shape of its question's kind
 * @param dangerQuestion the question that danger signs answer
 */
export function answersOf(
  { context, part, advice }: Pick<JobAtHand, 'context' | 'part' | 'advice'>,
  state: WorkState,
  events: readonly WorkEvent[],
  questions: Readonly<Record<string, Question>>,
  dangerQuestion: string,
): Answer[] {
  const { sheet } = context;
  const at = (event: WorkEvent) => (event.at === undefined ? {} : { at: event.at });
  const last = events.at(-1);
  const dangers: Answer[] =
    state.danger.length > 0 && last
      ? [{ question: dangerQuestion, value: state.danger, ...at(last) }]
      : [];
  const { ticks } = state;
  const steps = stepsWithBranches(sheet);
  const found: Answer[] = [];
  const results: Answer[] = [];
  const readings: Answer[] = [];
  for (const tick of ticks) {
    const step = steps.find(({ id }) => id === tick.step);
    const question = step?.question === undefined ? undefined : questions[step.question];
    if (step?.question !== undefined && question) {
      const value = valueFor(question, tick, part);
      if (value !== undefined)
        (step.asFound ? found : results).push({ question: step.question, value, ...at(tick) });
    }
    if (step?.input === 'readings-closed' || step?.input === 'readings-open') {
      if (tick.input !== undefined)
        readings.push({ question: 'readings', value: tick.input, ...at(tick) });
    }
    if (step?.input === 'flow' && tick.input !== undefined)
      readings.push({ question: 'flow', value: tick.input, ...at(tick) });
  }
  const tested = steps.find(
    (step) => step.question !== undefined && questions[step.question]?.job === sheet.job,
  )?.question;
  const isTest = tested !== undefined;
  // a test that nobody here can make is not asked for again
  if (isTest && results.length === 0 && state.ended === 'handed-over' && last)
    results.push({ question: tested, value: 'unknown', ...at(last) });
  const isDone = state.ended === 'done' && !isTest;
  const isNotAgain =
    state.ended === 'handed-over' && ticks.some((tick) => choiceOf(steps, tick)?.notAgain);
  const isWaterTold = state.advice.length > 0 || advice.length > 0;
  const value = {
    job: sheet.job,
    ...(part !== null && { parts: [part] }),
    ...(isWaterTold && { notToDrink: state.advice }),
    ...(!isDone && { done: false }),
    ...(isNotAgain && { again: false }),
  };
  // what may not be drunk, and must not be tried twice, outlasts a job that was handed over; the first a test too
  const isTold =
    isDone || isNotAgain || (state.ended !== null && state.advice.join() !== advice.join());
  const done: Answer[] = isTold && last ? [{ question: 'work-done', value, ...at(last) }] : [];
  // the work was done when the first thing was read after it
  const times = [...results, ...readings].flatMap((answer) => answer.at ?? []).toSorted();
  const doneAt = done.map((answer) =>
    times[0] === undefined ? answer : { ...answer, at: times[0] },
  );
  return [...dangers, ...found, ...doneAt, ...results, ...readings];
}

const choiceOf = (steps: readonly SheetStep[], { step, answer }: Tick): StepAnswer | undefined =>
  steps.find(({ id }) => id === step)?.answers[answer ?? ''];

function valueFor(question: Question, tick: Tick, part: string | null): unknown {
  const chosen = tick.answer ?? '';
  const figures = typeof tick.input === 'object' ? tick.input : undefined;
  switch (question.kind) {
    case 'housing':
      return part === null ? undefined : { removed: [part], result: chosen };
    case 'precharge':
      return question.answers.includes(chosen) ? chosen : figures;
    case 'pressure':
    case 'pressure-loss':
      return figures;
    default:
      return chosen === '' ? undefined : chosen;
  }
}

/** A note typed on the way, by step. */
export interface Note {
  readonly step: string;
  readonly text: string;
  readonly at?: string;
}

/** Notes typed on the way. */
export function notesOf(ticks: readonly Tick[]): Note[] {
  return ticks.flatMap(({ step, input, at }) =>
    typeof input === 'string' && input !== ''
      ? [{ step, text: input, ...(at !== undefined && { at }) }]
      : [],
  );
}
