import { type Kysely, type Migration, Migrator } from 'kysely';
import { first } from './migrations/0001-first.ts';
import { deskList } from './migrations/0002-desk-list.ts';
import { workEvents } from './migrations/0003-work-events.ts';
import { callerAnswered } from './migrations/0004-caller-answered.ts';
import type { StoreKind } from './store.ts';
import type { Tables } from './tables.ts';

/** All migrations in order; one explicit list, nothing is found by scanning a folder. */
const migrations = (kind: StoreKind): Record<string, Migration> => ({
  '0001-first': first(kind),
  '0002-desk-list': deskList,
  '0003-work-events': workEvents(kind),
  '0004-caller-answered': callerAnswered,
});

/**
 * Brings the database to the newest form. Safe to run from several servers at once: PostgreSQL holds an advisory lock
 * around the migrating transaction; SQLite's immediate transaction is itself the lock. Either all of it happens or none.
 */
export async function migrate(db: Kysely<Tables>, kind: StoreKind): Promise<void> {
  const provider = { getMigrations: () => Promise.resolve(migrations(kind)) };
  const { error } = await new Migrator({ db, provider }).migrateToLatest();
  if (error) throw error;
}
