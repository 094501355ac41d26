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
      conflict.column('key').doUpdateSet((eb) => {
        // over, or begun under a clock that was ahead and has been put right since
        const over = eb.or([
          eb('rate_counts.until_s', '<=', nowS),
          eb('rate_counts.until_s', '>', nowS + windowS),
        ]);
        return {
          count: eb
            .case()
            .when(over)
            .then(eb.val(1))
            .else(eb('rate_counts.count', '+', 1))
            .end(),
          until_s: eb
            .case()
            .when(over)
            .then(eb.val(nowS + windowS))
            .else(eb.ref('rate_counts.until_s'))
            .end(),
        };
      }),
    )
    .returning(['count', 'until_s'])
    .executeTakeFirstOrThrow();
  return { count: row.count, untilS: row.until_s };
}

/** Takes back one that was counted within the window that ends at `untilS`; later windows are left alone. */
export async function takeBackOne(db: Db, key: string, untilS: number): Promise<void> {
  await db
    .updateTable('rate_counts')
    .set((eb) => ({ count: eb('count', '-', 1) }))
    .where('key', '=', key)
    .where('until_s', '=', untilS)
    .execute();
}

/** Drops counts whose window is over: nothing about a caller is kept longer than needed. */
export async function dropOldCounts(db: Db, nowS: number): Promise<void> {
  await db.deleteFrom('rate_counts').where('until_s', '<=', nowS).execute();
}
