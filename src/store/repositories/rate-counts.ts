import type { Db } from '../store.ts';

/** The only place with queries on rate counts. */

/** Counts one more within the window of `key` and returns the count and when it ends (epoch seconds). */
export async function countOne(
  db: Db,
  key: string,
  windowS: number,
  nowS: number,
): Promise<{ count: number; untilS: number }> {
  const row = await db
    .insertInto('rate_counts')
    .values({ key, until_s: nowS + windowS, count: 1 })
    .onConflict((conflict) =>
      conflict.column('key').doUpdateSet((eb) => ({
        count: eb
          .case()
          .when('rate_counts.until_s', '<=', nowS)
          .then(eb.val(1))
          .else(eb('rate_counts.count', '+', 1))
          .end(),
        until_s: eb
          .case()
          .when('rate_counts.until_s', '<=', nowS)
          .then(eb.val(nowS + windowS))
          .else(eb.ref('rate_counts.until_s'))
          .end(),
      })),
    )
    .returning(['count', 'until_s'])
    .executeTakeFirstOrThrow();
  return { count: row.count, untilS: row.until_s };
}

/** Drops counts whose window is over: nothing about a caller is kept longer than needed. */
export async function dropOldCounts(db: Db, nowS: number): Promise<void> {
  await db.deleteFrom('rate_counts').where('until_s', '<=', nowS).execute();
}
