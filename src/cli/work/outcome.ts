import { type Case, diagnose } from '../../../shared/diagnosis/diagnose.ts';
import { sureness } from '../../../shared/diagnosis/say.ts';
import { dangerQuestion } from '../../../shared/interview/danger.ts';
import { awaitsProof } from '../../../shared/interview/proof.ts';
import { type Proof, proveWork } from '../../../shared/work/proving.ts';
import { answersOf, notesOf, type WorkRecord } from '../../../shared/work/record.ts';
import type { WorkEvent, WorkState } from '../../../shared/work/state.ts';
import type { Say } from '../io.ts';
import { wrap } from '../show/wrap.ts';
import { adviceTexts, type WorkKnowledge, type WorkSession } from './session.ts';

/** The record of a job as it stands, with what it adds to the case and whether it worked. */
export function recordOf(
  session: WorkSession,
  state: WorkState,
  events: readonly WorkEvent[],
  knowledge: WorkKnowledge,
  today: string,
): WorkRecord {
  const { rules } = knowledge;
  const answers = answersOf(
    session.context,
    state,
    events,
    session.part,
    rules.questions,
    dangerQuestion(rules),
  );
  return {
    job: session.context.sheet.job,
    part: session.part,
    ended: state.ended,
    danger: state.danger,
    events,
    notes: notesOf(events),
    advice: state.advice,
    answers,
    proof: answers.some(({ question }) => question === 'work-done')
      ? proofOf(session, caseWith(session.theCase, answers), knowledge, today)
      : null,
  };
}

/** The case with what the work adds to it. */
export const caseWith = (theCase: Case, answers: WorkRecord['answers']): Case => ({
  ...theCase,
  answers: [...theCase.answers, ...answers],
});

/** Proof against the causes of the block that the job was to mend: a lamp past its date does not unprove a filter. */
function proofOf(
  session: WorkSession,
  after: Case,
  { rules, words }: WorkKnowledge,
  today: string,
): Proof {
  const block = rules.causes[session.cause ?? '']?.block;
  const counts = (id: string) =>
    rules.causes[id] !== undefined && (block === undefined || rules.causes[id].block === block);
  const judged = awaitsProof(after.answers, rules) ? null : diagnose(after, rules, words, today);
  return proveWork(session.before, judged, session.cause, session.part, counts);
}

/** How the job ended, in words: what was proved, what is left, what may be drunk. */
export function endText(
  record: WorkRecord,
  session: WorkSession,
  knowledge: WorkKnowledge,
  say: Say,
): string {
  const { words } = knowledge;
  const { proof } = record;
  const calls = record.danger.flatMap((sign) => words.dangers[sign]?.call[session.audience] ?? []);
  const percent = (probability: number) => Math.round(probability * 100);
  const round = (times: number) => Number(times.toPrecision(2));
  const lines = [
    say(`ended-${record.ended ?? 'open'}`),
    ...calls.map((call) => say('danger-stop', { call })),
    ...(proof ? [say(`outcome-${proof.outcome}`)] : []),
    ...(proof?.timesClean
      ? [
          say('times-clean', {
            before: round(proof.timesClean.before),
            after: round(proof.timesClean.after),
          }),
        ]
      : []),
    ...(proof?.left ?? []).map(({ id, probability }) =>
      say('left', {
        sure: sureness(words, probability),
        name: words.causes[id]?.name ?? id,
        percent: percent(probability),
      }),
    ),
    ...(proof?.outcome === 'cured' ? [say('baseline')] : []),
    ...adviceTexts(record.advice, session, knowledge).map((text) => say('drink-still', { text })),
  ];
  return lines.map((line) => wrap(line)).join('\n');
}
