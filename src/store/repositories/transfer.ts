import { sql } from 'kysely';
import type { Db, StoreKind, Trx } from '../store.ts';
import type { Tables } from '../tables.ts';

/** The only place with queries that move whole tables, for export and import. */

type Cell = string | number | null;
export type Row = Readonly<Record<string, Cell>>;

export interface TransferTable {
  readonly name: keyof Tables;
  /** what makes a row unique, in the order rows are exported */
  readonly key: readonly string[];
  readonly columns: readonly string[];
}

/**
 * What is exported, so that each table's rows come after those they point to. Left out: sessions, secrets, counts of
 * addresses and webhook messages on their way; none of these means anything elsewhere.
 */
export const transferTables: readonly TransferTable[] = [
  {
    name: 'user',
    key: ['id'],
    columns: ['id', 'name', 'email', 'emailVerified', 'createdAt', 'updatedAt', 'role'],
  },
  {
    name: 'account',
    key: ['id'],
    columns: ['id', 'accountId', 'providerId', 'userId', 'password', 'createdAt', 'updatedAt'],
  },
  { name: 'plants', key: ['ref'], columns: ['ref', 'name', 'search_text', 'plant', 'created_at'] },
  {
    name: 'cases',
    key: ['ref'],
    columns: [
      ...[
        'ref',
        'plant_ref',
        'plant',
        'plant_name',
        'search_text',
        'audience',
        'language',
        'rule_set',
      ],
      ...[
        'created_at',
        'changed_at',
        'answer_count',
        'judged_count',
        'version',
        'state',
        'leading_cause',
        'priority',
        'assigned_to',
        'closed_how',
      ],
    ],
  },
  {
    name: 'answers',
    key: ['case_ref', 'position'],
    columns: ['case_ref', 'position', 'answer_id', 'question', 'value', 'at', 'received_at'],
  },
  {
    name: 'work_events',
    key: ['case_ref', 'position'],
    columns: [
      ...['case_ref', 'position', 'event_id', 'follows', 'job', 'part', 'device', 'event'],
      ...['person', 'received_at'],
    ],
  },
  {
    name: 'links',
    key: ['hash'],
    columns: ['hash', 'strength', 'case_ref', 'plant_ref', 'created_at', 'withdrawn_at'],
  },
  {
    name: 'notes',
    key: ['id'],
    columns: ['id', 'case_ref', 'author', 'at', 'text', 'search_text'],
  },
  {
    name: 'calls',
    key: ['case_ref'],
    columns: ['case_ref', 'call_back', 'access', 'stop_phrase_at', 'search_text'],
  },
  {
    name: 'rejudgings',
    key: ['case_ref', 'case_version'],
    columns: ['case_ref', 'case_version', 'at', 'from_rule_set', 'to_rule_set'],
  },
];

const PAGE = 500;

/** A table's rows by their key, a page at a time, each cell a text, a number or null whatever the database. */
export async function* rowsOf(db: Db, { name, key, columns }: TransferTable): AsyncGenerator<Row> {
  const keys = sql.join(key.map((column) => sql.ref(column)));
  const wanted = sql.join(columns.map((column) => sql.ref(column)));
  let last: readonly Cell[] | undefined;
  for (;;) {
    const behind = last ? sql`where (${keys}) > (${sql.join(last)})` : sql``;
    const query = sql<
      Record<string, unknown>
    >`select ${wanted} from ${sql.table(name)} ${behind} order by ${keys} limit ${sql.lit(PAGE)}`;
    const { rows } = await query.execute(db);
    for (const row of rows) {
      const cells: Row = Object.fromEntries(columns.map((column) => [column, toCell(row[column])]));
      last = key.map((column) => cells[column] ?? null);
      yield cells;
    }
    if (rows.length < PAGE) return;
  }
}

function toCell(value: unknown): Cell {
  if (value instanceof Date) return value.toISOString();
  if (typeof value === 'boolean') return value ? 1 : 0;
  return typeof value === 'string' || typeof value === 'number' ? value : null;
}

export async function insertRow(
  trx: Trx,
  kind: StoreKind,
  table: TransferTable,
  row: Row,
): Promise<void> {
  const cells = table.columns.map((column) => {
    const cell = row[column] ?? null;
    return kind === 'postgres' && column === 'emailVerified' ? cell === 1 : cell;
  });
  const columns = sql.join(table.columns.map((column) => sql.ref(column)));
  await sql`insert into ${sql.table(table.name)} (${columns}) values (${sql.join(cells)})`.execute(
    trx,
  );
}

/** True while nothing was ever stored. */
export async function isEmpty(db: Db): Promise<boolean> {
  for (const { name } of transferTables) {
    const { rows } = await sql`select 1 from ${sql.table(name)} limit 1`.execute(db);
    if (rows.length > 0) return false;
  }
  return true;
}
