import type { Db, Trx } from '../store.ts';
import type { DeliveryRow } from '../tables.ts';

/** The only place with queries on webhook deliveries. */

export async function insertDelivery(
  trx: Trx,
  row: Pick<DeliveryRow, 'id' | 'case_ref' | 'case_version' | 'body'>,
  now: string,
): Promise<void> {
  await trx
    .insertInto('deliveries')
    .values({
      ...row,
      created_at: now,
      next_try_at: now,
      attempts: 0,
      delivered_at: null,
      given_up_at: null,
    })
    .execute();
}

/**
 * Takes one delivery that is due and puts its next try off to `holdUntil`, so that no other server takes it meanwhile;
 * when this server dies, it is due again then.
 */
export async function takeDue(
  db: Db,
  now: string,
  holdUntil: string,
): Promise<DeliveryRow | undefined> {
  const due = await db
    .selectFrom('deliveries')
    .select(['id', 'next_try_at'])
    .where('next_try_at', '<=', now)
    .where('delivered_at', 'is', null)
    .where('given_up_at', 'is', null)
    .orderBy('next_try_at')
    .orderBy('case_version')
    .orderBy('id')
    .limit(1)
    .executeTakeFirst();
  if (!due) return undefined;
  return db
    .updateTable('deliveries')
    .set((eb) => ({ next_try_at: holdUntil, attempts: eb('attempts', '+', 1) }))
    .where('id', '=', due.id)
    .where('next_try_at', '=', due.next_try_at)
    .where('delivered_at', 'is', null)
    .returningAll()
    .executeTakeFirst();
}

export async function markDelivered(db: Db, id: string, now: string): Promise<void> {
  await db.updateTable('deliveries').set({ delivered_at: now }).where('id', '=', id).execute();
}

export async function markFailed(
  db: Db,
  id: string,
  next: { tryAt: string } | { givenUpAt: string },
): Promise<void> {
  const change = 'tryAt' in next ? { next_try_at: next.tryAt } : { given_up_at: next.givenUpAt };
  await db.updateTable('deliveries').set(change).where('id', '=', id).execute();
}

/** Drops what was delivered or given up before `before`. */
export async function dropOldDeliveries(db: Db, before: string): Promise<void> {
  await db
    .deleteFrom('deliveries')
    .where((eb) => eb.or([eb('delivered_at', '<', before), eb('given_up_at', '<', before)]))
    .execute();
}
