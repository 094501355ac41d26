import { type CreateTableBuilder, type Kysely, type Migration, sql } from 'kysely';
import type { StoreKind } from '../store.ts';
import { signInTables } from './sign-in-tables.ts';

/** Everything the first version keeps. Published migrations are never edited; a change is a new file. */
export function first(kind: StoreKind): Migration {
  return {
    async up(db: Kysely<unknown>): Promise<void> {
      const create = async <T extends string, C extends string>(
        name: T,
        columns: (table: CreateTableBuilder<T>) => CreateTableBuilder<T, C>,
      ): Promise<void> => {
        const table = columns(db.schema.createTable(name) as CreateTableBuilder<T>);
        await (kind === 'sqlite' ? table.modifyEnd(sql`strict`) : table).execute();
      };

      await signInTables(create, kind);

      await create('plants', (t) =>
        t
          .addColumn('ref', 'text', (c) => c.primaryKey())
          .addColumn('name', 'text', (c) => c.notNull())
          .addColumn('search_text', 'text', (c) => c.notNull())
          .addColumn('plant', 'text', (c) => c.notNull())
          .addColumn('created_at', 'text', (c) => c.notNull()),
      );
      await create('cases', (t) =>
        t
          .addColumn('ref', 'text', (c) => c.primaryKey())
          .addColumn('plant_ref', 'text', (c) => c.references('plants.ref').onDelete('set null'))
          .addColumn('plant', 'text')
          .addColumn('plant_name', 'text')
          .addColumn('search_text', 'text')
          .addColumn('audience', 'text', (c) => c.notNull())
          .addColumn('language', 'text', (c) => c.notNull())
          .addColumn('rule_set', 'text', (c) => c.notNull())
          .addColumn('created_at', 'text', (c) => c.notNull())
          .addColumn('changed_at', 'text', (c) => c.notNull())
          .addColumn('answer_count', 'integer', (c) => c.notNull().defaultTo(0))
          .addColumn('judged_count', 'integer', (c) => c.notNull().defaultTo(0))
          .addColumn('version', 'integer', (c) => c.notNull().defaultTo(0))
          .addColumn('state', 'text', (c) => c.notNull())
          .addColumn('leading_cause', 'text')
          .addColumn('assigned_to', 'text', (c) => c.references('user.id').onDelete('set null'))
          .addColumn('closed_how', 'text'),
      );
      await create('answers', (t) =>
        t
          .addColumn('case_ref', 'text', (c) =>
            c.notNull().references('cases.ref').onDelete('cascade'),
          )
          .addColumn('position', 'integer', (c) => c.notNull())
          .addColumn('answer_id', 'text', (c) => c.notNull())
          .addColumn('question', 'text', (c) => c.notNull())
          .addColumn('value', 'text', (c) => c.notNull())
          .addColumn('at', 'text')
          .addColumn('received_at', 'text', (c) => c.notNull())
          .addPrimaryKeyConstraint('answers_in_order', ['case_ref', 'position'])
          .addUniqueConstraint('answers_once', ['case_ref', 'answer_id']),
      );
      await create('links', (t) =>
        t
          .addColumn('hash', 'text', (c) => c.primaryKey())
          .addColumn('strength', 'text', (c) => c.notNull())
          .addColumn('case_ref', 'text', (c) => c.references('cases.ref').onDelete('set null'))
          .addColumn('plant_ref', 'text', (c) => c.references('plants.ref').onDelete('set null'))
          .addColumn('created_at', 'text', (c) => c.notNull())
          .addColumn('withdrawn_at', 'text'),
      );
      await create('notes', (t) =>
        t
          .addColumn('id', 'text', (c) => c.primaryKey())
          .addColumn('case_ref', 'text', (c) =>
            c.notNull().references('cases.ref').onDelete('cascade'),
          )
          .addColumn('author', 'text', (c) => c.references('user.id').onDelete('set null'))
          .addColumn('at', 'text', (c) => c.notNull())
          .addColumn('text', 'text', (c) => c.notNull()),
      );
      await create('calls', (t) =>
        t
          .addColumn('case_ref', 'text', (c) =>
            c.primaryKey().references('cases.ref').onDelete('cascade'),
          )
          .addColumn('caller', 'text')
          .addColumn('call_back', 'text')
          .addColumn('access', 'text')
          .addColumn('stop_phrase_at', 'text'),
      );
      await create('rejudgings', (t) =>
        t
          .addColumn('case_ref', 'text', (c) =>
            c.notNull().references('cases.ref').onDelete('cascade'),
          )
          .addColumn('case_version', 'integer', (c) => c.notNull())
          .addColumn('at', 'text', (c) => c.notNull())
          .addColumn('from_rule_set', 'text', (c) => c.notNull())
          .addColumn('to_rule_set', 'text', (c) => c.notNull())
          .addPrimaryKeyConstraint('rejudgings_in_order', ['case_ref', 'case_version']),
      );
      await create('deliveries', (t) =>
        t
          .addColumn('id', 'text', (c) => c.primaryKey())
          .addColumn('case_ref', 'text', (c) =>
            c.notNull().references('cases.ref').onDelete('cascade'),
          )
          .addColumn('case_version', 'integer', (c) => c.notNull())
          .addColumn('body', 'text', (c) => c.notNull())
          .addColumn('created_at', 'text', (c) => c.notNull())
          .addColumn('next_try_at', 'text', (c) => c.notNull())
          .addColumn('attempts', 'integer', (c) => c.notNull().defaultTo(0))
          .addColumn('delivered_at', 'text')
          .addColumn('given_up_at', 'text'),
      );
      await create('rate_counts', (t) =>
        t
          .addColumn('key', 'text', (c) => c.primaryKey())
          .addColumn('until_s', 'integer', (c) => c.notNull())
          .addColumn('count', 'integer', (c) => c.notNull()),
      );
      await create('settings', (t) =>
        t
          .addColumn('name', 'text', (c) => c.primaryKey())
          .addColumn('value', 'text', (c) => c.notNull()),
      );

      const index = (name: string, table: string, columns: string[]): Promise<void> =>
        db.schema.createIndex(name).on(table).columns(columns).execute();
      await index('cases_by_change', 'cases', ['changed_at', 'ref']);
      await index('cases_by_plant', 'cases', ['plant_ref']);
      await index('cases_by_person', 'cases', ['assigned_to']);
      await index('links_by_case', 'links', ['case_ref']);
      await index('links_by_plant', 'links', ['plant_ref']);
      await index('notes_by_case', 'notes', ['case_ref']);
      await index('deliveries_due', 'deliveries', ['next_try_at']);
      await index('session_userId_idx', 'session', ['userId']);
      await index('account_userId_idx', 'account', ['userId']);
      await index('verification_identifier_idx', 'verification', ['identifier']);
    },
  };
}
