import type { Db, Trx } from '../store.ts';
import type { WorkEventRow } from '../tables.ts';

/** The only place with queries on what happened at jobs. Nothing here changes or removes an event. */

export type NamedWorkEvent = WorkEventRow & { readonly person_name: string | null };

/** A case's events in their order, from after `position` on, each with the name of who sent it. */
export function listWork(db: Db, caseRef: string, position = 0): Promise<NamedWorkEvent[]> {
  return db
    .selectFrom('work_events')
    .leftJoin('user', 'user.id', 'work_events.person')
    .selectAll('work_events')
    .select('user.name as person_name')
    .where('case_ref', '=', caseRef)
    .where('position', '>', position)
    .orderBy('position')
    .execute();
}

export async function appendWork(trx: Trx, row: WorkEventRow): Promise<void> {
  await trx.insertInto('work_events').values(row).execute();
}

/** What happened at the jobs of these cases, each case's in their order. */
export function listWorkOf(db: Db, caseRefs: readonly string[]): Promise<WorkEventRow[]> {
  return db
    .selectFrom('work_events')
    .selectAll()
    .where('case_ref', 'in', caseRefs)
    .orderBy('position')
    .execute();
}
