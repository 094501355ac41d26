import { assign, createMachine, initialTransition, type SnapshotFrom, transition } from 'xstate';
import type { Answer } from '../case/answer.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { dangerQuestion, standsStopped } from './danger.ts';
import { awaitsProof } from './proof.ts';
import { type Step, takenBackOf, unknownOf } from './step.ts';

/** What can happen in an interview. `at` is the time to put on the answer (ISO 8601 with offset). */
export type InterviewEvent = { readonly at?: string | undefined } & (
  | { readonly type: 'ANSWER'; readonly answer: Answer }
  | { readonly type: 'UNKNOWN'; readonly step: Step }
  | { readonly type: 'TAKE_BACK'; readonly step: Step }
  /** go to an earlier answer, or leave it as it was after all */
  | { readonly type: 'CHANGE'; readonly step: Step }
  | { readonly type: 'KEEP' }
  /** danger signs, said at any moment */
  | { readonly type: 'STOP'; readonly signs: readonly string[] }
  /** a job sheet is taken up or laid aside; work done arrives as an answer */
  | { readonly type: 'WORK' }
  | { readonly type: 'LEAVE_WORK' }
);

export type Mode = 'asking' | 'changing' | 'stopped' | 'working' | 'proving';

interface Context {
  readonly answers: readonly Answer[];
  /** which answer the mode "changing" is about; null in every other mode */
  readonly changing: Step | null;
}

/**
 * The machine that asks: it holds the answers and a mode, and nothing else. What to ask next is no business of its own;
 * that is `diagnose(case).next`, computed from the answers. The rule set only tells it which answers are danger signs
 * and which are measurements.
 */
export function interviewMachine(rules: RuleSet) {
  const danger = dangerQuestion(rules);
  const answered = {
    ANSWER: { target: 'settling', actions: 'append' },
    UNKNOWN: { target: 'settling', actions: 'append' },
    TAKE_BACK: { target: 'settling', actions: 'append' },
  } as const;
  const open = {
    ...answered,
    CHANGE: { target: 'changing', actions: 'goTo' },
    WORK: 'working',
  } as const;
  // not `setup`, which brings every kind of action and weighs on the first load
  return createMachine(
    {
      types: {} as { context: Context; events: InterviewEvent },
      id: 'interview',
      context: { answers: [], changing: null },
      initial: 'asking',
      on: { STOP: { target: '.settling', actions: 'append' } },
      states: {
        // The answers alone decide the mode, so that a case goes on where it was left.
        settling: {
          always: [
            { guard: 'standsStopped', target: 'stopped' },
            { guard: 'awaitsProof', target: 'proving' },
            { target: 'asking' },
          ],
        },
        asking: { on: open },
        proving: { on: open },
        changing: {
          on: {
            ...answered,
            CHANGE: { actions: 'goTo' },
            KEEP: { target: 'settling', actions: 'leave' },
          },
        },
        // Only the danger signs themselves lead out of here; whatever else arrives is kept.
        stopped: { on: answered },
        working: {
          on: {
            ANSWER: [
              { guard: 'endsWork', target: 'settling', actions: 'append' },
              { actions: 'append' },
            ],
            LEAVE_WORK: 'settling',
          },
        },
      },
    },
    {
      guards: {
        standsStopped: ({ context }) => standsStopped(context.answers, rules),
        awaitsProof: ({ context }) => awaitsProof(context.answers, rules),
        endsWork: ({ event }) => {
          const question = event.type === 'ANSWER' ? event.answer.question : '';
          return question === 'work-done' || question === danger;
        },
      },
      actions: {
        append: assign(({ context, event }) => {
          const answer = answerOf(event, danger);
          const answers = answer === null ? context.answers : [...context.answers, answer];
          return { answers, changing: null };
        }),
        goTo: assign({
          changing: ({ context, event }) =>
            event.type === 'CHANGE' ? event.step : context.changing,
        }),
        leave: assign({ changing: null }),
      },
    },
  );
}

export type InterviewMachine = ReturnType<typeof interviewMachine>;
export type Interview = SnapshotFrom<InterviewMachine>;

/** The interview where the answers have led it: a case needs no more than its answers to go on. */
export function rebuild(machine: InterviewMachine, answers: readonly Answer[]): Interview {
  const [start] = initialTransition(machine);
  return answers.reduce<Interview>(
    (interview, answer) => after(machine, interview, { type: 'ANSWER', answer }),
    start,
  );
}

/** The interview after one event. An event that has no meaning in the present mode changes nothing. */
export function after(
  machine: InterviewMachine,
  interview: Interview,
  event: InterviewEvent,
): Interview {
  return transition(machine, interview, event)[0];
}

/** The mode in one word. */
export function modeOf(interview: Interview): Mode {
  return interview.value as Mode;
}

/** The answer that an event adds to the case, if it adds one. */
function answerOf(event: InterviewEvent, danger: string): Answer | null {
  const at = event.at === undefined ? {} : { at: event.at };
  switch (event.type) {
    case 'ANSWER':
      return { ...event.answer, ...at };
    case 'UNKNOWN':
      return { question: event.step.question, value: unknownOf(event.step), ...at };
    case 'TAKE_BACK':
      return { question: event.step.question, value: takenBackOf(event.step), ...at };
    case 'STOP':
      return { question: danger, value: event.signs, ...at };
    default:
      return null;
  }
}
