import { type Kysely, type Migration, sql } from 'kysely';
import type { StoreKind } from '../store.ts';

/** What happens at a case's jobs, so that a job begun on one device is gone on with on another. */
export const workEvents = (kind: StoreKind): Migration => ({
  async up(db: Kysely<unknown>): Promise<void> {
    const table = db.schema
      .createTable('work_events')
      .addColumn('case_ref', 'text', (c) => c.notNull().references('cases.ref').onDelete('cascade'))
      .addColumn('position', 'integer', (c) => c.notNull())
      .addColumn('event_id', 'text', (c) => c.notNull())
      .addColumn('follows', 'text')
      .addColumn('job', 'text', (c) => c.notNull())
      .addColumn('part', 'text')
      .addColumn('device', 'text', (c) => c.notNull())
      .addColumn('event', 'text')
      .addColumn('person', 'text', (c) => c.references('user.id').onDelete('set null'))
      .addColumn('received_at', 'text', (c) => c.notNull())
      .addPrimaryKeyConstraint('work_events_in_order', ['case_ref', 'position'])
      .addUniqueConstraint('work_events_once', ['case_ref', 'event_id']);
    await (kind === 'sqlite' ? table.modifyEnd(sql`strict`) : table).execute();
  },
});
