import type { Answer } from '../case/answer.ts';
import { tellsOfWork } from '../case/work-done.ts';
import { type Case, diagnose } from '../diagnosis/diagnose.ts';
import { dangerQuestion } from '../interview/danger.ts';
import { awaitsProof } from '../interview/proof.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { answersOf, type Note, notesOf, stepsWithBranches } from './answers.ts';
import { standing } from './conditions.ts';
import type { JobAtHand, WorkKnowledge } from './job.ts';
import { ABOUT_EVEN, type Proof, proveWork } from './proving.ts';
import type { WorkContext, WorkEvent, WorkState } from './state.ts';

/** What the next person needs to know: kept with the plant. */
export interface WorkRecord {
  readonly job: string;
  readonly part: string | null;
  readonly ended: WorkState['ended'];
  readonly danger: readonly string[];
  readonly events: readonly WorkEvent[];
  readonly notes: readonly Note[];
  readonly advice: WorkState['advice'];
  /** to be added to the case: danger signs, what a test found, work done, readings taken again */
  readonly answers: readonly Answer[];
  /** null for a test, and while the work is not done */
  readonly proof: Proof | null;
  /** causes of another kind that were about even or likelier, which this job was not for */
  readonly untouched: readonly string[];
  /** parts that the plan names for the same job and that are still to be done; the first is offered at once */
  readonly nextParts: readonly string[];
  /** conditions in which the plant was left, for whoever goes on; empty once the job is done */
  readonly leftAs: readonly string[];
  /** the job that goes on from here, or must come first */
  readonly leadsTo: string | null;
  /** where that job is done, when it can be done anywhere on the plant: where this one was */
  readonly leadsToPart: string | null;
}

/**
 * The record of a job as it stands, with what it adds to the case and whether it worked.
 * @param day the calendar day used when the case carries none
 */
export function recordOf(
  job: JobAtHand,
  state: WorkState,
  events: readonly WorkEvent[],
  knowledge: WorkKnowledge,
  day: string,
): WorkRecord {
  const { rules, work } = knowledge;
  const { context, part } = job;
  const answers = answersOf(job, state, events, rules.questions, dangerQuestion(rules));
  const isWork = answers.some(tellsOfWork);
  const leftAs = leftBehind(context, state);
  const next =
    state.ended === 'stopped' || !state.ended
      ? null
      : (leadsTo(context, state) ?? (leftAs.length > 0 ? lastResort(rules, context) : null));
  return {
    ...{ job: context.sheet.job, part, ended: state.ended, danger: state.danger, events, answers },
    notes: notesOf(state.ticks),
    advice: state.advice,
    proof: isWork ? proofOf(job, answers, knowledge, day) : null,
    untouched: isWork ? untouchedBy(job, knowledge) : [],
    nextParts: isWork ? job.nextParts : [],
    leftAs,
    leadsTo: next,
    leadsToPart: next !== null && work.jobs[next]?.at === 'plant' ? part : null,
  };
}

/** The case with what the work adds to it. */
export const caseWith = (theCase: Case, answers: readonly Answer[]): Case => ({
  ...theCase,
  answers: [...theCase.answers, ...answers],
});

/**
 * Proof against the causes of the block that the job was to mend, so that a worn pump does not unprove a lamp. What is
 * merely overdue is told elsewhere, unless it was what the job was for.
 */
function proofOf(
  job: JobAtHand,
  answers: readonly Answer[],
  { rules, words }: WorkKnowledge,
  day: string,
): Proof {
  const { before, cause, part, units, theCase } = job;
  const after = caseWith(theCase, answers);
  const block = rules.causes[cause ?? '']?.block;
  const counts = (id: string): boolean => {
    const table = rules.causes[id];
    if (!table || (block !== undefined && table.block !== block)) return false;
    return id === cause || table.pastLife !== true;
  };
  const judged = awaitsProof(after.answers, rules)
    ? null
    : diagnose(after, rules, words, day, units);
  // drops tell of what hinders the water, not of what it tastes of
  const measuredAt = block === 'quality' ? null : part;
  return proveWork(before, judged, cause, measuredAt, counts, showsAgain(job, answers, rules));
}

/**
 * Whether something seen after the work is what its cause shows itself by: any that the job cures, where it was not done
 * for one. The work makes the cause unlikely and leaves what is seen to several others, none of them likely by itself;
 * the trouble is there all the same.
 */
function showsAgain(
  { cause, context }: JobAtHand,
  answers: readonly Answer[],
  { jobs, questions }: RuleSet,
): boolean {
  const causes = cause === null ? Object.keys(jobs[context.sheet.job]?.cures ?? {}) : [cause];
  const since = answers.slice(answers.findLastIndex(tellsOfWork) + 1);
  return since.some(
    ({ question, value }) =>
      typeof value === 'string' &&
      causes.some((id) => questions[question]?.table[id]?.[value] !== undefined),
  );
}

/** Work ends what was said of the whole complaint, so what it left alone is named. */
function untouchedBy({ before, cause, context }: JobAtHand, { rules }: WorkKnowledge): string[] {
  const worked = rules.causes[cause ?? ''];
  const cures = rules.jobs[context.sheet.job]?.cures ?? {};
  const isElsewhere = (id: string): boolean => {
    const table = rules.causes[id];
    if (!table || table.pastLife || id === cause || id in cures) return false;
    return table.block !== worked?.block || worked.pastLife === true;
  };
  const likely = before.causes.filter(({ probability }) => probability >= ABOUT_EVEN);
  return likely.map(({ id }) => id).filter(isElsewhere);
}

/** What stands that somebody else must know of before touching anything. */
function leftBehind({ conditions }: WorkContext, { made, ended }: WorkState): string[] {
  if (ended === 'done') return [];
  return standing(made, conditions).filter((id) => conditions[id]?.tellNext);
}

/** Who is to go on where no step names somebody: the plant is not left shut down with nobody to come. */
function lastResort({ jobs }: RuleSet, { sheet }: WorkContext): string | null {
  const [job] = Object.keys(jobs).filter((id) => jobs[id]?.lastResort && id !== sheet.job);
  return job ?? null;
}

/** What the step that handed over names, or the answer given to it. */
function leadsTo({ sheet }: WorkContext, { ticks }: WorkState): string | null {
  const last = ticks.at(-1);
  const step = stepsWithBranches(sheet).find(({ id }) => id === last?.step);
  return step?.answers[last?.answer ?? '']?.leadsTo ?? step?.leadsTo ?? null;
}
