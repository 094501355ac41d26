import type { Audience } from '../case/answer.ts';
import { fill } from '../diagnosis/say.ts';
import { standing } from './conditions.ts';
import { offered, waitOverAt } from './next.ts';
import type { SheetStep } from './sheet.ts';
import { stepsOf, type WorkContext, type WorkState } from './state.ts';
import type { WorkWords } from './words.ts';

/** One step as a person sees it. */
export interface StepView {
  readonly id: string;
  readonly text: string;
  /** the same in full, for a technician new to it; null where the text is that already */
  readonly inFull: string | null;
  /** what can happen, what to do, who must do it; shown before the step */
  readonly caution: string | null;
  readonly by: SheetStep['by'];
  readonly minutes: number;
  /** when a wait is over at the earliest (RFC 3339); null where nothing is waited for, or nobody knows since when */
  readonly notBefore: string | null;
  readonly tools: readonly string[];
  readonly parts: readonly string[];
  readonly drawing: string | null;
  readonly sources: readonly string[];
  /** to be chosen from; empty: a tick */
  readonly answers: readonly {
    readonly id: string;
    readonly label: string;
    /** the step's reading or note belongs to this answer too */
    readonly takesEntry: boolean;
  }[];
  /** what is said when there is nothing to choose from */
  readonly tick: string;
  readonly input: SheetStep['input'] | null;
  /** the question of the case that the step's result answers */
  readonly question: string | null;
}

/** A job as one screen: the step that fills it, the conditions along the top, what may not be drunk. */
export interface WorkView {
  readonly job: string;
  /** null when nothing is offered: ended, or waiting for what the rule set cannot give */
  readonly step: StepView | null;
  readonly conditions: readonly {
    readonly id: string;
    readonly name: string;
    readonly struckBecause: string | null;
  }[];
  readonly advice: WorkState['advice'];
  readonly ended: WorkState['ended'];
  readonly danger: WorkState['danger'];
  /** the step whose tick can be taken back */
  readonly lastTick: string | null;
  /** steps of the sheet itself that are done, and all of them */
  readonly done: number;
  readonly of: number;
}

/** @param holes the plant's own names and figures (holes.ts) */
export function viewOf(
  context: WorkContext,
  state: WorkState,
  words: WorkWords,
  holes: Readonly<Record<string, string>>,
  audience: Audience,
): WorkView {
  const step = offered(context, state);
  const name = (id: string) => words.conditions[id] ?? id;
  const stand = standing(state.made, context.conditions);
  const isShown = (id: string) => id in words.conditions;
  return {
    job: context.sheet.job,
    step: step && stepView(step, context, state, words, holes, audience),
    conditions: [
      ...stand.filter(isShown).map((id) => ({ id, name: name(id), struckBecause: null })),
      ...state.struck.map(({ condition, because }) => ({
        ...{
          id: condition,
          name: name(condition),
          struckBecause: words.phrases[`struck-${because}`] ?? because,
        },
      })),
    ],
    advice: state.advice,
    ended: state.ended,
    danger: state.danger,
    lastTick: state.before && (state.ticks.at(-1)?.step ?? null),
    done: Math.min(state.frames[0]?.at ?? 0, context.sheet.steps.length),
    of: context.sheet.steps.length,
  };
}

function stepView(
  step: SheetStep,
  { sheet }: WorkContext,
  state: WorkState,
  words: WorkWords,
  holes: Readonly<Record<string, string>>,
  audience: Audience,
): StepView {
  const said = words.steps[step.words];
  const toHave = step.gathers ? sheet.steps : [step];
  const named = (ids: readonly string[]) => [...new Set(ids)].map((id) => words.tools[id] ?? id);
  return {
    id: step.id,
    text: fill(textFor(said, audience, words), holes),
    inFull: audience === 'technician' && said ? fill(said.householder, holes) : null,
    caution: step.caution ? fill(said?.caution ?? '', holes) : null,
    by: step.by,
    minutes: step.minutes,
    notBefore: waitOverAt(state, step),
    tools: named(toHave.flatMap(({ tools }) => tools)),
    parts: named(toHave.flatMap(({ parts }) => parts)),
    drawing: step.drawing ?? null,
    sources: step.sources,
    answers: Object.entries(step.answers).map(([id, { noEntry }]) => ({
      id,
      label: fill(said?.answers[id] ?? id, holes),
      takesEntry: step.input !== undefined && !noEntry,
    })),
    tick: words.phrases[step.ends === 'handed-over' ? 'tick-hand-over' : 'tick'] ?? '',
    input: step.input ?? null,
    question: step.question ?? null,
  };
}

function textFor(
  said: WorkWords['steps'][string] | undefined,
  audience: Audience,
  words: WorkWords,
): string {
  if (!said) return '';
  if (audience === 'technician') return said.technician;
  if (audience === 'householder') return said.householder;
  return fill(words.phrases['read-aloud'] ?? '{line} {listenFor}', {
    line: said.householder,
    listenFor: said.listenFor,
  });
}

/** Minutes the sheet takes when nothing goes wrong. */
export const minutesOf = ({ sheet }: WorkContext): number =>
  stepsOf(sheet, { branch: null, at: 0 }).reduce((sum, step) => sum + step.minutes, 0);
