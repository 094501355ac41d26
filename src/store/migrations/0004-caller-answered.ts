import type { Kysely, Migration } from 'kysely';

/** Where the caller is, is an answer of the case since: it says what can be asked of them. */
export const callerAnswered: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('calls').dropColumn('caller').execute();
  },
};
