import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import {
  CompiledQuery,
  type DatabaseConnection,
  type DialectAdapter,
  type Driver,
  SqliteAdapter,
  SqliteDialect,
  type SqliteDialectConfig,
  SqliteDriver,
  type TransactionSettings,
} from 'kysely';

/** How long a writer waits for another process on the same file before it gives up. */
const BUSY_MS = 10_000;
const RETRY_MS = 5;

/**
 * Takes the write lock when a transaction begins. With SQLite's deferred begin, a transaction that reads first and
 * writes later fails at once when another process wrote in between; this one waits its turn instead, and lets the
 * process do other work meanwhile.
 */
class ImmediateDriver extends SqliteDriver {
  override async beginTransaction(
    connection: DatabaseConnection,
    settings?: TransactionSettings,
  ): Promise<void> {
    const giveUpAt = Date.now() + BUSY_MS;
    const run = (sql: string) => connection.executeQuery(CompiledQuery.raw(sql));
    if (settings?.accessMode === 'read only') {
      await run('begin'); // a reader sees one moment and holds nobody up
      return;
    }
    await run('pragma busy_timeout = 0');
    try {
      for (;;) {
        try {
          await run('begin immediate');
          return;
        } catch (error) {
          if (!isBusy(error) || Date.now() > giveUpAt) throw error;
          await new Promise((resolve) => setTimeout(resolve, RETRY_MS));
        }
      }
    } finally {
      await run(`pragma busy_timeout = ${BUSY_MS}`);
    }
  }
}

const isBusy = (error: unknown): boolean =>
  error instanceof Database.SqliteError && error.code.startsWith('SQLITE_BUSY');

/** SQLite can change tables within a transaction; the query builder assumes it cannot, and would migrate without one. */
class TransactionalAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class ImmediateDialect extends SqliteDialect {
  readonly #config: SqliteDialectConfig;

  constructor(config: SqliteDialectConfig) {
    super(config);
    this.#config = config;
  }

  override createAdapter(): DialectAdapter {
    return new TransactionalAdapter();
  }

  override createDriver(): Driver {
    return new ImmediateDriver(this.#config);
  }
}

/**
 * Opens (and on first start creates) `gaugewalk.sqlite` in a folder, or a database in memory for `:memory:`.
 * Write-ahead log with `synchronous = FULL`: every commit is synced to the disk before it is acknowledged.
 */
export function sqliteDialect(dataDir: string): SqliteDialect {
  if (dataDir !== ':memory:') mkdirSync(dataDir, { recursive: true, mode: 0o700 });
  const file = dataDir === ':memory:' ? dataDir : join(dataDir, 'gaugewalk.sqlite');
  const database = new Database(file, { timeout: BUSY_MS });
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  database.pragma('foreign_keys = ON');
  return new ImmediateDialect({ database });
}
