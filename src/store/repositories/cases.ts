import type { Expression, ExpressionBuilder, RawBuilder, SqlBool } from 'kysely';
import type { Db, Trx } from '../store.ts';
import type { CaseRow, CaseState, NewCase, Priority, Tables } from '../tables.ts';
import { containsRunOn, containsWord, isNumber, startsWith, wordsOf } from './search.ts';

/** The only place with queries on cases. */

export async function insertCase(db: Db, row: NewCase): Promise<void> {
  await db.insertInto('cases').values(row).execute();
}

export function findCase(db: Db, ref: string): Promise<CaseRow | undefined> {
  return db.selectFrom('cases').selectAll().where('ref', '=', ref).executeTakeFirst();
}

/**
 * Holds the case until the transaction ends, so that answers to it come one after the other. A write that changes
 * nothing is a lock both databases understand.
 */
export function lockCase(trx: Trx, ref: string): Promise<CaseRow | undefined> {
  return trx
    .updateTable('cases')
    .set((eb) => ({ version: eb.ref('version') }))
    .where('ref', '=', ref)
    .returningAll()
    .executeTakeFirst();
}

export interface CaseChange {
  readonly answer_count?: number;
  readonly judged_count?: number;
  readonly plant_ref?: string | null;
  readonly plant_name?: string | null;
  readonly search_text?: string | null;
  readonly rule_set?: string;
  readonly state?: CaseState;
  readonly leading_cause?: string | null;
  readonly priority?: Priority;
  readonly assigned_to?: string | null;
  readonly closed_how?: string | null;
}

/** Changes what is given and counts the change, so that watchers see it. */
export async function changeCase(
  trx: Trx,
  ref: string,
  change: CaseChange,
  now: string,
): Promise<void> {
  await trx
    .updateTable('cases')
    .set((eb) => ({ ...change, changed_at: now, version: eb('version', '+', 1) }))
    .where('ref', '=', ref)
    .execute();
}

/** Writes what a view came to. Nobody watches for it: whoever watches the case has the view itself. */
export async function settleCase(
  trx: Trx,
  ref: string,
  set: Pick<CaseRow, 'judged_count' | 'state' | 'leading_cause' | 'priority' | 'closed_how'>,
): Promise<void> {
  await trx.updateTable('cases').set(set).where('ref', '=', ref).execute();
}

/** Cases that stand unjudged since before `before`: the server that took their answer died over it. */
export async function listUnjudged(db: Db, before: string, limit: number): Promise<string[]> {
  const rows = await db
    .selectFrom('cases')
    .select('ref')
    .whereRef('judged_count', '<', 'answer_count')
    .where('changed_at', '<', before)
    .limit(limit)
    .execute();
  return rows.map(({ ref }) => ref);
}

export async function deleteCase(trx: Trx, ref: string): Promise<void> {
  await trx.deleteFrom('cases').where('ref', '=', ref).execute();
}

export interface CaseFilter {
  readonly state?: CaseState | undefined;
  /** true: those that are not closed */
  readonly isOpen?: boolean | undefined;
  readonly priority?: Priority | undefined;
  readonly cause?: string | undefined;
  /** a person's id, or null for cases nobody has */
  readonly assignedTo?: string | null | undefined;
  readonly plantRef?: string | undefined;
  /** words of the plant's name, of a note or of the call-back, in any order; or the beginning of the case's reference */
  readonly search?: string | undefined;
  /** continue after this one (newest change first) */
  readonly after?: { readonly changedAt: string; readonly ref: string } | undefined;
  readonly limit: number;
}

/** Cases by their latest change, newest first. */
export function listCases(db: Db, filter: CaseFilter): Promise<CaseRow[]> {
  const { state, isOpen, priority, cause, assignedTo, plantRef, search, after } = filter;
  let query = db.selectFrom('cases').selectAll();
  if (state) query = query.where('state', '=', state);
  if (isOpen) query = query.where('state', '!=', 'closed');
  if (priority) query = query.where('priority', '=', priority);
  if (cause) query = query.where('leading_cause', '=', cause);
  if (assignedTo === null) query = query.where('assigned_to', 'is', null);
  else if (assignedTo) query = query.where('assigned_to', '=', assignedTo);
  if (plantRef) query = query.where('plant_ref', '=', plantRef);
  if (search) query = query.where((eb) => foundBy(eb, search));
  if (after) {
    query = query.where((eb) =>
      eb.or([
        eb('changed_at', '<', after.changedAt),
        eb.and([eb('changed_at', '=', after.changedAt), eb('ref', '<', after.ref)]),
      ]),
    );
  }
  return query.orderBy('changed_at', 'desc').orderBy('ref', 'desc').limit(filter.limit).execute();
}

/** Every word of it somewhere in name, notes or call-back; or it is a reference's beginning; or a number to call back. */
function foundBy(eb: ExpressionBuilder<Tables, 'cases'>, search: string): Expression<SqlBool> {
  const beside = (table: 'notes' | 'calls', fits: RawBuilder<boolean>): Expression<SqlBool> =>
    eb.exists(
      eb.selectFrom(table).select('case_ref').whereRef('case_ref', '=', 'cases.ref').where(fits),
    );
  const word = (text: string): Expression<SqlBool> =>
    eb.or([
      containsWord('cases.search_text', text),
      beside('notes', containsWord('notes.search_text', text)),
      beside('calls', containsWord('calls.search_text', text)),
    ]);
  return eb.or([
    eb.and(wordsOf(search).map(word)),
    // as it is read aloud it has a space
    startsWith('ref', search.replace(/\s/g, '')),
    ...(isNumber(search) ? [beside('calls', containsRunOn('calls.search_text', search))] : []),
  ]);
}

/** How many cases stand in each state. */
export async function countByState(db: Db): Promise<Record<string, number>> {
  const rows = await db
    .selectFrom('cases')
    .select((eb) => ['state', eb.fn.countAll().as('count')])
    .groupBy('state')
    .execute();
  return Object.fromEntries(rows.map((row) => [row.state, Number(row.count)])); // PostgreSQL counts in text
}

/** The rule sets some case still stands on. */
export async function ruleSetsInUse(db: Db): Promise<string[]> {
  const rows = await db
    .selectFrom('cases')
    .select('rule_set')
    .distinct()
    .orderBy('rule_set')
    .execute();
  return rows.map((row) => row.rule_set);
}
