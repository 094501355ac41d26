import type { Db, Trx } from '../store.ts';
import type { CallRow, NoteRow } from '../tables.ts';

/** The only place with queries on what the desk writes beside a case: notes, the call, re-judgings. */

export async function insertNote(trx: Trx, row: Omit<NoteRow, 'search_text'>): Promise<void> {
  const search_text = row.text.toLowerCase();
  await trx
    .insertInto('notes')
    .values({ ...row, search_text })
    .execute();
}

export function listNotes(
  db: Db,
  caseRef: string,
): Promise<(NoteRow & { author_name: string | null })[]> {
  return db
    .selectFrom('notes')
    .leftJoin('user', 'user.id', 'notes.author')
    .selectAll('notes')
    .select('user.name as author_name')
    .where('case_ref', '=', caseRef)
    .orderBy('at')
    .orderBy('notes.id')
    .execute();
}

export function findCall(db: Db, caseRef: string): Promise<CallRow | undefined> {
  return db.selectFrom('calls').selectAll().where('case_ref', '=', caseRef).executeTakeFirst();
}

export async function saveCall(
  trx: Trx,
  { case_ref, ...call }: Omit<CallRow, 'search_text'>,
): Promise<void> {
  const fields = { ...call, search_text: call.call_back?.toLowerCase() ?? null };
  await trx
    .insertInto('calls')
    .values({ case_ref, ...fields })
    .onConflict((conflict) => conflict.column('case_ref').doUpdateSet(fields))
    .execute();
}

export async function insertRejudging(
  trx: Trx,
  row: {
    case_ref: string;
    case_version: number;
    at: string;
    from_rule_set: string;
    to_rule_set: string;
  },
): Promise<void> {
  await trx.insertInto('rejudgings').values(row).execute();
}

export function listRejudgings(
  db: Db,
  caseRef: string,
): Promise<{ at: string; from_rule_set: string; to_rule_set: string }[]> {
  return db
    .selectFrom('rejudgings')
    .select(['at', 'from_rule_set', 'to_rule_set'])
    .where('case_ref', '=', caseRef)
    .orderBy('case_version')
    .execute();
}
