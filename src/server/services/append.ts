import { isDeepStrictEqual } from 'node:util';
import type { Answer } from '../../../shared/case/answer.ts';
import { InputError } from '../../../shared/common/errors.ts';
import { appendAnswer, listAnswers } from '../../store/repositories/answers.ts';
import { changeCase, lockCase } from '../../store/repositories/cases.ts';
import type { AnswerRow } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { CaseInput } from '../judge.ts';
import { notFound, Problem } from '../problem.ts';
import { nameOf, plantNow, toAnswer } from './answer-rows.ts';
import { caseInput } from './views.ts';

/** No case of a person comes near this; it bounds what one link can store. */
const MAX_ANSWERS = 2000;

export type SentAnswer = Answer & { readonly answerId: string };

/**
 * Stores one answer. The same answer sent again changes nothing. With `after` (how many answers the sender has seen) it
 * is refused when others came between, and told which. The case is held only while the answer is checked against those
 * before it and written; nothing is computed meanwhile.
 */
export function append(
  { store, judge, clock, metrics }: Pick<Deps, 'store' | 'judge' | 'clock' | 'metrics'>,
  ref: string,
  answer: SentAnswer,
  after: number | undefined,
): Promise<void> {
  const now = clock().toISOString();
  return store.write(async (trx, changed) => {
    const row = await lockCase(trx, ref);
    if (!row) throw notFound();
    const rows = await listAnswers(trx, ref);
    if (isRepeated(rows, answer)) return;
    checkAfter(rows, after);
    if (rows.length >= MAX_ANSWERS) {
      throw new Problem(
        409,
        `This case holds ${MAX_ANSWERS} answers; open a new one.`,
        'case-full',
      );
    }
    if (!judge.ruleSets.includes(row.rule_set)) {
      throw new Problem(
        503,
        `This server does not have the rule set ${row.rule_set}.`,
        'rule-set-missing',
      );
    }
    const added = toRow(ref, rows.length + 1, answer, now);
    const input = caseInput(row, [...rows, added]);
    validateSent(judge, input);
    const name = nameOf(plantNow(row.plant, input.answers));
    await appendAnswer(trx, added);
    await changeCase(
      trx,
      ref,
      { answer_count: added.position, plant_name: name, search_text: name?.toLowerCase() ?? null },
      now,
    );
    changed(ref);
    metrics.answers.inc();
  });
}

/** Checks the case with the answer just sent; what is wrong with it is named by its place in what was sent. */
function validateSent(judge: Deps['judge'], input: CaseInput): void {
  const sent = `answers[${input.answers.length - 1}].`;
  try {
    judge.validate(input);
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
  throw new Problem(
    409,
    'Another answer was already sent under this answerId. Make a new UUID for each answer; send one twice only to repeat it.',
    'answer-id-used',
  );
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
