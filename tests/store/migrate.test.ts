import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getMigrations } from 'better-auth/db/migration';
import { Kysely, sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { authOptions } from '../../src/server/auth.ts';
import { deskList } from '../../src/store/migrations/0002-desk-list.ts';
import { sqliteDialect } from '../../src/store/sqlite.ts';
import { openStore } from '../../src/store/store.ts';
import { onBothStores, storeOpener } from './stores.ts';

onBothStores('migrations', (place) => {
  const opened = storeOpener(place);

  it('run once when eight servers start at the same moment on an empty database', async () => {
    const where = await place.newPlace();
    const stores = await Promise.all(Array.from({ length: 8 }, () => openStore(where)));
    const rows = await stores[0]!.db
      .selectFrom('kysely_migration' as 'settings')
      .selectAll()
      .execute();
    expect(rows).toHaveLength(4);
    await Promise.all(stores.map((store) => store.ping()));
    await Promise.all(stores.map((store) => store.close()));
  });

  it('leave what is stored alone when a server starts again', async () => {
    const where = await place.newPlace();
    const first = await openStore(where);
    await first.db.insertInto('settings').values({ name: 'kept', value: 'yes' }).execute();
    await first.close();
    const again = await opened(where);
    expect(await again.db.selectFrom('settings').selectAll().execute()).toEqual([
      { name: 'kept', value: 'yes' },
    ]);
  });

  it('bring what was written before to the newest form: a note of the first version is found', async () => {
    const { db } = await opened();
    const row = { id: 'n', case_ref: 'c', author: null, at: '', text: 'Ähren im TANK' };
    const bare = db as unknown as Kysely<Record<string, Record<string, string | null>>>;
    await bare.schema.dropTable('notes').execute();
    await bare.schema.dropTable('calls').execute();
    await sql`create table notes (id text, case_ref text, author text, at text, text text)`.execute(
      db,
    );
    await bare.schema.alterTable('cases').dropColumn('priority').execute();
    await sql`create table calls (case_ref text, call_back text)`.execute(db);
    await bare.insertInto('notes').values(row).execute();
    await deskList.up(bare);
    expect(await bare.selectFrom('notes').select('search_text').execute()).toEqual([
      { search_text: 'ähren im tank' },
    ]);
  });

  it('hold every table and column the sign-in library asks for', async () => {
    const store = await opened();
    const plan = await getMigrations(
      authOptions(store, 'a secret of at least thirty-two signs', 'http://127.0.0.1'),
    );
    expect({
      tables: plan.toBeCreated,
      columns: plan.toBeAdded,
      problems: plan.schemaProblems,
    }).toEqual({
      tables: [],
      columns: [],
      problems: [],
    });
  });
});

describe('the SQLite file', () => {
  it('is written ahead and synced in full', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-pragma-'));
    const db = new Kysely({ dialect: sqliteDialect(folder) });
    const pragma = async (name: string): Promise<unknown> =>
      Object.values(
        (await sql.raw<Record<string, unknown>>(`pragma ${name}`).execute(db)).rows[0] ?? {},
      )[0];
    expect(await pragma('journal_mode')).toBe('wal');
    expect(await pragma('synchronous')).toBe(2); // FULL, https://sqlite.org/pragma.html#pragma_synchronous
    expect(await pragma('foreign_keys')).toBe(1);
    await db.destroy();
    rmSync(folder, { recursive: true });
  });
});
