import { Kysely, sql, type Transaction } from 'kysely';
import type pg from 'pg';
import { type Changes, createChanges } from './changes.ts';
import { groupCommits } from './group-commit.ts';
import { listen } from './listen.ts';
import { migrate } from './migrate.ts';
import { postgresConnections } from './postgres.ts';
import { sqliteDialect } from './sqlite.ts';
import type { Tables } from './tables.ts';
import { transaction } from './transaction.ts';

export type StoreKind = 'sqlite' | 'postgres';
export type Db = Kysely<Tables>;
export type Trx = Transaction<Tables>;

export interface StoreOptions {
  /** set: PostgreSQL, or a database speaking its protocol */
  readonly databaseUrl?: string | undefined;
  /** the folder of the SQLite file otherwise */
  readonly dataDir: string;
  /** how often watched cases are looked at for changes made by other servers */
  readonly pollMs?: number;
  /** hears of lost connections; they are opened again without being asked */
  readonly onError?: (error: Error) => void;
}

export interface Store {
  readonly db: Db;
  readonly kind: StoreKind;
  readonly changes: Changes;
  /**
   * One transaction. Cases passed to `changed` are told to every watcher on every server, after the commit and only
   * then. A throw rolls everything back.
   */
  write<T>(work: (trx: Trx, changed: (caseRef: string) => void) => Promise<T>): Promise<T>;
  /** Rejects when the database does not answer. */
  ping(): Promise<void>;
  close(): Promise<void>;
}

/** The PostgreSQL channel on which servers tell each other which case changed. */
const CHANNEL = 'gaugewalk_changes';

/** Opens the store and brings it to the newest form. */
export async function openStore(options: StoreOptions): Promise<Store> {
  const onError = options.onError ?? (() => undefined);
  const postgres = options.databaseUrl
    ? postgresConnections(options.databaseUrl, onError)
    : undefined;
  const kind: StoreKind = postgres ? 'postgres' : 'sqlite';
  const db = new Kysely<Tables>({ dialect: postgres?.dialect ?? sqliteDialect(options.dataDir) });
  try {
    await migrate(db, kind);
  } catch (error) {
    await db.destroy();
    throw error;
  }
  const changes = createChanges(db, options.pollMs ?? 1000, onError);
  const stopListening = postgres
    ? listen(postgres.pool, CHANNEL, changes.tell, onError)
    : () => undefined;
  return makeStore(db, kind, changes, stopListening, postgres?.pool);
}

function makeStore(
  db: Db,
  kind: StoreKind,
  changes: Changes,
  stopListening: () => void,
  pool: pg.Pool | undefined,
): Store {
  const inTransaction: <T>(work: (trx: Trx) => Promise<T>) => Promise<T> =
    kind === 'sqlite' ? groupCommits(db) : (work) => transaction(db, work);
  return {
    db,
    kind,
    changes,
    async write(work) {
      const refs = new Set<string>();
      const result = await inTransaction(async (trx) => {
        const value = await work(trx, (ref) => refs.add(ref));
        if (pool)
          for (const ref of refs) await sql`select pg_notify(${CHANNEL}, ${ref})`.execute(trx);
        return value;
      });
      refs.forEach(changes.tell);
      return result;
    },
    async ping() {
      await sql`select 1`.execute(db);
    },
    async close() {
      changes.stop();
      stopListening();
      await db.destroy();
    },
  };
}
