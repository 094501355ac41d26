import type { Db, Trx } from './store.ts';

/**
 * One transaction, rolled back by a throw. What is thrown comes out as it was, even where rolling back fails too: on a
 * full disk SQLite has rolled back by itself, and a connection that is lost can be told nothing more.
 */
export async function transaction<T>(db: Db, work: (trx: Trx) => Promise<T>): Promise<T> {
  let cause: { readonly error: unknown } | undefined;
  try {
    return await db.transaction().execute(async (trx) => {
      try {
        return await work(trx);
      } catch (error) {
        cause = { error };
        throw error;
      }
    });
  } catch (error) {
    throw cause ? cause.error : error;
  }
}
