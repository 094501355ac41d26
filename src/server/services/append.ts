import { isDeepStrictEqual } from 'node:util';
import type { Answer } from '../../../shared/case/answer.ts';
import { InputError } from '../../../shared/common/errors.ts';
import { appendAnswer, listAnswers } from '../../store/repositories/answers.ts';
import { changeCase, lockCase } from '../../store/repositories/cases.ts';
import type { AnswerRow } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { CaseInput, View } from '../judge.ts';
import { notFound, Problem } from '../problem.ts';
import { nameOf, plantNow, toAnswer } from './answer-rows.ts';
import { tellStateChange } from './outbox.ts';
import { type ComputeView, caseInput, leadingCause, stateOf, type Wording } from './views.ts';

/** No case of a person comes near this; it bounds what one link can store. */
const MAX_ANSWERS = 2000;

export type SentAnswer = Answer & { readonly answerId: string };

/**
 * Adds one answer and returns the view with it. The same answer sent again changes nothing. With `after` (how many
 * answers the sender has seen) it is refused when others came between, and told which. The case is held while this
 * runs, and an answer is stored only if the case can be judged with it: a stored case always has a view.
 */
export function append(
  deps: Deps,
  views: ComputeView,
  ref: string,
  answer: SentAnswer,
  after: number | undefined,
  wording: Wording = {},
): Promise<{ view: View; count: number }> {
  const now = deps.clock().toISOString();
  return deps.store.write(async (trx, changed) => {
    const row = await lockCase(trx, ref);
    if (!row) throw notFound();
    const rows = await listAnswers(trx, ref);
    if (isRepeated(rows, answer))
      return { view: views(caseInput(row, rows, wording)), count: rows.length };
    checkAfter(rows, after);
    if (rows.length >= MAX_ANSWERS)
      throw new Problem(
        409,
        `This case holds ${MAX_ANSWERS} answers; open a new one.`,
        'case-full',
      );

    const added = toRow(ref, rows.length + 1, answer, now);
    const input = caseInput(row, [...rows, added], wording);
    const view = viewWith(views, input);
    const state = stateOf(view);
    const name = nameOf(plantNow(row.plant, input.answers));

    await appendAnswer(trx, added);
    await changeCase(
      trx,
      ref,
      {
        answer_count: added.position,
        state,
        leading_cause: leadingCause(view),
        plant_name: name,
        search_text: name?.toLowerCase() ?? null,
        closed_how: null, // an answer to a closed case opens it again
      },
      now,
    );
    await tellStateChange(deps, trx, row, row.state, state, view, now);
    changed(ref);
    deps.metrics.answers.inc();
    return { view, count: added.position };
  });
}

/** The view with the answer just sent; what is wrong with it is named by its place in what was sent. */
function viewWith(views: ComputeView, input: CaseInput): View {
  const sent = `answers[${input.answers.length - 1}].`;
  try {
    return views(input);
  } catch (error) {
    if (!(error instanceof InputError) || !error.where.startsWith(sent)) throw error;
    throw new InputError(error.where.slice(sent.length), error.message);
  }
}

function isRepeated(rows: readonly AnswerRow[], answer: SentAnswer): boolean {
  const same = rows.find((row) => row.answer_id === answer.answerId);
  if (!same) return false;
  const stored = toAnswer(same);
  if (stored.question === answer.question && isDeepStrictEqual(stored.value, answer.value))
    return true;
  throw new Problem(409, 'Another answer was already sent under this answerId.', 'answer-id-used');
}

function checkAfter(rows: readonly AnswerRow[], after: number | undefined): void {
  if (after === undefined || after === rows.length) return;
  const between = rows.slice(after).map(toAnswer);
  const detail =
    after < rows.length
      ? `${between.length} answers came between; look at them and send yours again with "after": ${rows.length}.`
      : `There are only ${rows.length} answers; "after" says ${after} were seen.`;
  throw new Problem(409, detail, 'answers-between', { count: rows.length, answers: between });
}

function toRow(ref: string, position: number, answer: SentAnswer, now: string): AnswerRow {
  return {
    case_ref: ref,
    position,
    answer_id: answer.answerId,
    question: answer.question,
    value: JSON.stringify(answer.value ?? null),
    at: answer.at ?? null,
    received_at: now,
  };
}
