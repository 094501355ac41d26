import type { Kysely, Migration } from 'kysely';
import type { Tables } from '../tables.ts';

/** What the desk's list finds cases by besides the plant, call-backs and notes, and how soon each is to be seen to. */
export const deskList: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('cases')
      .addColumn('priority', 'text', (c) => c.notNull().defaultTo('normal'))
      .execute();
    // what was answered already is judged once more, which writes it
    await (db as Kysely<Pick<Tables, 'cases'>>)
      .updateTable('cases')
      .set({ judged_count: 0 })
      .where('state', '!=', 'closed')
      .execute();
    await inSmallLetters(db, 'notes', 'id', 'text');
    await inSmallLetters(db, 'calls', 'case_ref', 'call_back');
  },
};

/** A column `search_text` with the words in small letters: SQLite's own `lower` knows ASCII only. */
async function inSmallLetters(
  before: Kysely<unknown>,
  table: string,
  key: string,
  words: string,
): Promise<void> {
  await before.schema.alterTable(table).addColumn('search_text', 'text').execute();
  const db = before as Kysely<Record<string, Record<string, string | null>>>;
  const rows = await db.selectFrom(table).selectAll().execute();
  for (const row of rows) {
    await db
      .updateTable(table)
      .set({ search_text: row[words]?.toLowerCase() ?? null })
      .where(key, '=', row[key] ?? '')
      .execute();
  }
}
