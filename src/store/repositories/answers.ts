import type { Db, Trx } from '../store.ts';
import type { AnswerRow } from '../tables.ts';

/** The only place with queries on answers. Nothing here changes or removes one. */

/** A case's answers in their order, from after `position` on. */
export function listAnswers(db: Db, caseRef: string, position = 0): Promise<AnswerRow[]> {
  return db
    .selectFrom('answers')
    .selectAll()
    .where('case_ref', '=', caseRef)
    .where('position', '>', position)
    .orderBy('position')
    .execute();
}

export async function appendAnswer(trx: Trx, row: AnswerRow): Promise<void> {
  await trx.insertInto('answers').values(row).execute();
}

/** Every answer of a plant's cases to one of these questions, in the order they were received. */
export function listPlantAnswers(
  db: Db,
  plantRef: string,
  questions: readonly string[],
): Promise<AnswerRow[]> {
  return db
    .selectFrom('answers')
    .innerJoin('cases', 'cases.ref', 'answers.case_ref')
    .selectAll('answers')
    .where('cases.plant_ref', '=', plantRef)
    .where('question', 'in', questions)
    .orderBy('received_at')
    .orderBy('case_ref')
    .orderBy('position')
    .execute();
}
