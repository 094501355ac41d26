import { randomBytes } from 'node:crypto';
import type { Db } from '../store.ts';

/** A secret all servers of this database share (cookies, keys of rate counts); made once, by whichever comes first. */
export async function sharedSecret(db: Db, name: string): Promise<string> {
  await db
    .insertInto('settings')
    .values({ name, value: randomBytes(32).toString('base64url') })
    .onConflict((conflict) => conflict.column('name').doNothing())
    .execute();
  const row = await db
    .selectFrom('settings')
    .select('value')
    .where('name', '=', name)
    .executeTakeFirstOrThrow();
  return row.value;
}
