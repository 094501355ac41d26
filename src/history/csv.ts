import { CsvError, parse } from 'csv-parse/sync';
import { InputError } from '../../shared/common/errors.ts';
import type { Columns, Meaning } from './columns.ts';

/** A reading as the record holds it. */
export interface HistoryEntry {
  readonly at: string;
  readonly taps: 'closed' | 'part-open' | { readonly open: number | readonly string[] };
  readonly bar: Readonly<Record<string, number>>;
  readonly flowLpm?: number;
  readonly waterTempC?: number;
}

/** A row that could not be used, kept aside as it stood. */
export interface BadRow {
  /** in the file, the header is line 1 */
  readonly line: number;
  readonly message: string;
  readonly cells: readonly string[];
}

interface Row {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface Table {
  readonly header: readonly string[];
  readonly rows: readonly Row[];
  readonly delimiter: string;
}

/**
 * Reads a CSV text (RFC 4180; comma, semicolon or tab, whichever its header holds most of). Rows may be of any length.
 * @throws InputError when it is no CSV, or holds no row
 */
export function readTable(text: string, where: string): Table {
  const delimiter = delimiterOf(text.split(/\r?\n/, 1)[0] ?? '');
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(text, {
      ...{ bom: true, delimiter, trim: true, info: true, skip_empty_lines: true },
      relax_column_count: true,
    }) as unknown as typeof records;
  } catch (error) {
    if (error instanceof CsvError) throw new InputError(where, error.message);
    throw error;
  }
  const [head, ...rest] = records;
  if (!head || rest.length === 0)
    throw new InputError(where, 'needs a header and at least one row');
  const repeated = head.record.find((name, i) => head.record.indexOf(name) !== i);
  if (repeated !== undefined) throw new InputError(where, `two columns are called "${repeated}"`);
  const rows = rest.map(({ record, info }) => ({ line: info.lines, cells: record }));
  return { header: head.record, rows, delimiter };
}

function delimiterOf(header: string): string {
  const count = (mark: string) => header.split(mark).length;
  return [',', ';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best));
}

/** @throws InputError saying how to name what no column holds */
export function checkColumns(columns: Columns): void {
  const kinds = [...columns.values()].map((meaning) => meaning.kind);
  const missing = (what: string, such: string) =>
    new InputError('columns', `${what}: name it, such as --columns "${such}"`);
  if (!kinds.includes('at')) throw missing('none of them holds the day', 'When=at');
  if (!kinds.includes('gauge')) throw missing('none of them is a gauge', 'P1=G1 psi');
  if (!kinds.includes('taps')) {
    throw missing('none of them holds the taps ("closed", or how many were open)', 'Taps=taps');
  }
}

/**
 * Rows as readings; those that cannot be used come back with the reason, and nothing else is lost for them.
 * @param check refuses a reading that the plant cannot have, by an InputError
 */
export function readingsOf(
  table: Table,
  columns: Columns,
  check: (entry: HistoryEntry) => void = () => {},
): { readonly entries: readonly HistoryEntry[]; readonly bad: readonly BadRow[] } {
  checkColumns(columns);
  const entries: HistoryEntry[] = [];
  const bad: BadRow[] = [];
  for (const row of table.rows) {
    try {
      const entry = entryOf(row, table, columns);
      check(entry);
      entries.push(entry);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const { line, cells } = row;
      bad.push({ line, message: `${placeIn(error)}: ${error.message}`, cells });
    }
  }
  return { entries, bad };
}

/** The column, or the gauge of a reading that the plant cannot have. */
const placeIn = ({ where }: InputError): string =>
  where.startsWith('history') ? (where.split('.').at(-1) ?? where) : where;

/** Rows that could not be used as a CSV of their own, each with its reason: mended there, it can be imported again. */
export function asideOf({ header, delimiter }: Table, bad: readonly BadRow[]): string {
  const reason = 'reason';
  const lineOf = (cells: readonly string[]) =>
    cells.map((cell) => quoted(cell, delimiter)).join(delimiter);
  const rows = bad.map(({ cells, message }) => {
    const filled = header.map((_, i) => cells[i] ?? '');
    return lineOf([...filled, ...cells.slice(header.length), message]);
  });
  return `${[lineOf([...header, reason]), ...rows].join('\r\n')}\r\n`;
}

/** A cell as RFC 4180 writes it. */
const quoted = (cell: string, delimiter: string): string =>
  cell.includes(delimiter) || /["\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

/** Readings that a record does not hold yet: the same file may be taken twice. */
export function unknownTo(
  history: readonly object[],
  entries: readonly HistoryEntry[],
): HistoryEntry[] {
  const keyOf = (entry: object) => {
    const { at, taps, bar } = entry as HistoryEntry;
    return JSON.stringify([at, taps, Object.entries(bar ?? {}).sort()]);
  };
  const known = new Set(history.map(keyOf));
  return entries.filter((entry) => !known.has(keyOf(entry)));
}

function entryOf(row: Row, table: Table, columns: Columns): HistoryEntry {
  if (row.cells.length !== table.header.length) {
    throw new InputError(
      'row',
      `${row.cells.length} cells where the header has ${table.header.length}`,
    );
  }
  let at: string | undefined;
  let taps: HistoryEntry['taps'] | undefined;
  let flowLpm: number | undefined;
  let waterTempC: number | undefined;
  const bar: Record<string, number> = {};
  table.header.forEach((name, i) => {
    const meaning: Meaning = columns.get(name) ?? { kind: 'nothing' };
    const cell = row.cells[i] ?? '';
    if (cell === '' && meaning.kind !== 'at' && meaning.kind !== 'taps') return;
    if (meaning.kind === 'at') at = dayIn(cell, name);
    if (meaning.kind === 'taps') taps = tapsIn(cell, name);
    if (meaning.kind === 'gauge')
      bar[meaning.gauge] = rounded(numberIn(cell, name) * meaning.barPerUnit);
    if (meaning.kind === 'flow')
      flowLpm = rounded(atLeastZero(numberIn(cell, name), name) * meaning.lpmPerUnit);
    if (meaning.kind === 'temperature') {
      const value = numberIn(cell, name);
      waterTempC = rounded(meaning.unit === 'F' ? ((value - 32) * 5) / 9 : value);
    }
  });
  if (at === undefined || taps === undefined) throw new InputError('row', 'has no day or no taps');
  if (Object.keys(bar).length === 0) throw new InputError('row', 'no gauge was read');
  return {
    ...{ at, taps, bar },
    ...(flowLpm !== undefined && { flowLpm }),
    ...(waterTempC !== undefined && { waterTempC }),
  };
}

const rounded = (value: number): number => Math.round(value * 1e5) / 1e5;

/** A number with a point or a comma; thousands are not separated. */
function numberIn(cell: string, where: string): number {
  const value = Number(cell.trim().replace(',', '.'));
  if (cell.trim() === '' || !Number.isFinite(value)) {
    throw new InputError(where, `"${cell}" is no number`);
  }
  return value;
}

function atLeastZero(value: number, where: string): number {
  if (value < 0) throw new InputError(where, `${value} cannot be: zero or more`);
  return value;
}

/** A day as 2026-11-25 (a time may follow) or 25.11.2026; 3/4/2026 could be two days and is refused. */
function dayIn(cell: string, where: string): string {
  const iso =
    /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?\s*(Z|[+-]\d{2}:?\d{2})?)?$/.exec(
      cell,
    );
  const dotted = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(cell);
  const day = iso
    ? `${iso[1]}-${iso[2]}-${iso[3]}`
    : dotted
      ? `${dotted[3]}-${dotted[2]?.padStart(2, '0')}-${dotted[1]?.padStart(2, '0')}`
      : null;
  if (day === null) {
    throw new InputError(where, `"${cell}" is no day: write 2026-11-25 or 25.11.2026`);
  }
  if (Number.isNaN(Date.parse(day)) || new Date(day).toISOString().slice(0, 10) !== day) {
    throw new InputError(where, `"${cell}" is not in the calendar`);
  }
  const zone = iso?.[7]?.replace(/^([+-]\d{2})(\d{2})$/, '$1:$2');
  return zone ? `${day}T${iso?.[4]}:${iso?.[5]}:${iso?.[6] ?? '00'}${zone}` : day;
}

function tapsIn(cell: string, where: string): HistoryEntry['taps'] {
  const text = cell.trim().toLowerCase();
  if (['closed', '0', 'shut', 'cerrado', 'cerrados', 'zu'].includes(text)) return 'closed';
  if (text === 'part-open') return 'part-open';
  const count = Number(text.replace(/^open\s*/, ''));
  if (Number.isInteger(count) && count >= 1) return { open: count };
  const named = cell.trim().split(/\s*\+\s*/);
  if (/^[A-Za-z][A-Za-z0-9-]*$/.test(named[0] ?? '')) return { open: named };
  throw new InputError(
    where,
    `"${cell}": write closed, how many taps were open, or their ids joined by +`,
  );
}

/** Readings as CSV (RFC 4180), which `readTable` and `guessColumns` understand again. */
export function csvOf(entries: readonly HistoryEntry[], gauges: readonly string[]): string {
  const head = ['at', 'taps', ...gauges.map((id) => `${id} bar`), 'flow lpm', 'temperature C'];
  const rows = entries.map((entry) => [
    entry.at,
    tapsText(entry.taps),
    ...gauges.map((id) => String(entry.bar[id] ?? '')),
    String(entry.flowLpm ?? ''),
    String(entry.waterTempC ?? ''),
  ]);
  return `${[head, ...rows].map((row) => row.join(',')).join('\r\n')}\r\n`;
}

function tapsText(taps: HistoryEntry['taps']): string {
  if (typeof taps === 'string') return taps;
  return typeof taps.open === 'number' ? String(taps.open) : taps.open.join('+');
}
