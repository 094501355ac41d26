import { sql } from 'kysely';
import type { Db, Trx } from './store.ts';
import { transaction } from './transaction.ts';

/** So many writes share one commit at most; none of them waits for long. */
const AT_ONCE = 64;

type Outcome = { readonly value: unknown } | { readonly error: unknown };

interface Waiting {
  readonly work: (trx: Trx) => Promise<unknown>;
  readonly settle: (outcome: Outcome) => void;
}

/**
 * SQLite has one writer, and a commit waits for the disk. Writes that come while it does are done together in the next
 * transaction, each behind a savepoint of its own: one that fails takes none of the others with it, and none is
 * acknowledged before the commit they share is on the disk. (PostgreSQL does the same by itself.)
 */
export function groupCommits(db: Db): <T>(work: (trx: Trx) => Promise<T>) => Promise<T> {
  const waiting: Waiting[] = [];
  let running = false;

  const run = async (): Promise<void> => {
    while (waiting.length > 0) {
      const batch = waiting.splice(0, AT_ONCE);
      const outcomes = await commit(db, batch);
      for (const [i, { settle }] of batch.entries()) {
        settle(outcomes[i] ?? { error: new Error('a write was left out') });
      }
      await afterOthersArrived();
    }
    running = false;
  };

  return <T>(work: (trx: Trx) => Promise<T>) =>
    new Promise<T>((resolve, reject) => {
      const settle = (outcome: Outcome): void =>
        'value' in outcome ? resolve(outcome.value as T) : reject(outcome.error);
      waiting.push({ work, settle });
      if (running) return;
      running = true;
      void afterOthersArrived().then(run);
    });
}

/** Lets every request that has arrived be read, so that its write is in the next transaction. */
const afterOthersArrived = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

async function commit(db: Db, batch: readonly Waiting[]): Promise<Outcome[]> {
  try {
    return await transaction(db, async (trx) => {
      const outcomes: Outcome[] = [];
      for (const { work } of batch) outcomes.push(await attempt(trx, work));
      return outcomes;
    });
  } catch (error) {
    return batch.map(() => ({ error })); // nothing was committed, so nobody is told otherwise
  }
}

async function attempt(trx: Trx, work: Waiting['work']): Promise<Outcome> {
  await sql`savepoint one_write`.execute(trx);
  try {
    const value = await work(trx);
    await sql`release one_write`.execute(trx);
    return { value };
  } catch (error) {
    try {
      await sql`rollback to one_write`.execute(trx);
      await sql`release one_write`.execute(trx);
    } catch {
      throw error; // the whole transaction is gone, and this is why
    }
    return { error };
  }
}
