import { z } from 'zod';
import { InputError } from '../../shared/common/errors.ts';
import { insertRow, isEmpty, type Row, rowsOf, transferTables } from './repositories/transfer.ts';
import type { Store } from './store.ts';

/**
 * Everything in one file: a first line that says what it is, then one JSON line a row, in an order that does not
 * depend on the database. The same content gives the same bytes on SQLite and on PostgreSQL.
 */
const head = { gaugewalk: 'export', version: 1 } as const;

const headSchema = z.strictObject({ gaugewalk: z.literal('export'), version: z.literal(1) });
const lineSchema = z.strictObject({
  table: z.enum(transferTables.map(({ name }) => name)),
  row: z.record(z.string(), z.union([z.string(), z.number(), z.null()])),
});

/** Writes the whole store as it stands at one moment, line by line. Returns the number of rows. */
export function exportStore(
  { db }: Pick<Store, 'db'>,
  write: (line: string) => void | Promise<void>,
): Promise<number> {
  return db
    .transaction()
    .setAccessMode('read only')
    .setIsolationLevel('repeatable read')
    .execute(async (trx) => {
      let rows = 0;
      await write(`${JSON.stringify(head)}\n`);
      for (const table of transferTables) {
        for await (const row of rowsOf(trx, table)) {
          await write(`${JSON.stringify({ table: table.name, row })}\n`);
          rows += 1;
        }
      }
      return rows;
    });
}

/**
 * Reads such a file into an empty store; all of it or none. Throws an InputError naming the line that cannot be used,
 * or saying that the store is not empty. Returns the number of rows.
 */
export async function importStore(
  store: Pick<Store, 'db' | 'kind' | 'write'>,
  lines: AsyncIterable<string>,
  file: string,
): Promise<number> {
  if (!(await isEmpty(store.db))) {
    throw new InputError(
      file,
      'the store holds something already; import into a new one (another DATA_DIR or DATABASE_URL)',
    );
  }
  return store.write(async (trx) => {
    let number = 0;
    for await (const line of lines) {
      number += 1;
      const where = `${file}:${number}`;
      if (number === 1) parseLine(headSchema, line, where, 'is not the first line of an export');
      else if (line !== '') {
        const { table, row } = parseLine(lineSchema, line, where, 'is not a line of an export');
        const known = transferTables.find(({ name }) => name === table);
        if (!known || !hasColumns(row, known.columns))
          throw new InputError(where, `does not fit the table ${table}`);
        try {
          await insertRow(trx, store.kind, known, row);
        } catch {
          throw new InputError(
            where,
            'cannot be stored: it contradicts a line before it, or the file is incomplete',
          );
        }
      }
    }
    if (number === 0) throw new InputError(file, 'is empty');
    return number - 1;
  });
}

function parseLine<T>(schema: z.ZodType<T>, line: string, where: string, message: string): T {
  try {
    return schema.parse(JSON.parse(line));
  } catch {
    throw new InputError(where, message);
  }
}

const hasColumns = (row: Row, columns: readonly string[]): boolean =>
  Object.keys(row).length === columns.length && columns.every((column) => column in row);
