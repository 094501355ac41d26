import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { localDay } from '../../shared/common/local-time.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { momentOf } from '../../shared/upkeep/days.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { guessColumns, meaningText, nameColumns } from '../history/columns.ts';
import {
  asideOf,
  type BadRow,
  checkColumns,
  csvOf,
  type HistoryEntry,
  readingsOf,
  readTable,
  type Table,
  unknownTo,
} from '../history/csv.ts';
import { inFile } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, readJson } from './json-file.ts';
import type { Knowledge } from './knowledge.ts';
import { askRound } from './round/ask.ts';
import { type UnitOptions, withUnits } from './units.ts';
import type { World } from './world.ts';

export interface RoundOptions extends UnitOptions {
  readonly open?: unknown;
  readonly import?: string | undefined;
  readonly columns?: string | undefined;
  readonly yes?: boolean | undefined;
  readonly export?: string | undefined;
}

/** A record as it stands in its file; fields this command does not touch stay as they are. */
interface RecordFile {
  readonly history: readonly Record<string, unknown>[];
  readonly [field: string]: unknown;
}

/** `gaugewalk round FILE`: one month's readings asked for, taken from a CSV file, or written to one. */
export async function runRound(
  world: World,
  knowledge: Knowledge,
  say: Say,
  path: string,
  options: RoundOptions,
): Promise<number> {
  const { rules } = knowledge;
  const input = await readJson(world, path);
  const today = localDay(world.now());
  const { plant } = inFile(nameOf(path), () => parseUpkeep(input, rules, today));
  const record = { history: [], ...(input as object) } as RecordFile;
  // Whatever day the record stands at, the new readings count.
  const check = (history: readonly object[]) =>
    void parseUpkeep({ ...record, history, today }, rules, today);
  if (options.export !== undefined) return exportTo(world, say, record, plant, options.export);
  if (path === '-') throw new InputError('standard input', 'cannot be written to: give a file');
  const taken =
    options.import === undefined
      ? await askRound(
          { world, knowledge, say, options, check: (entry) => check([entry]) },
          plant,
          openOf(options.open),
        )
      : await importFrom(world, say, plant, options.import, options, {
          history: record.history,
          check: (entry) => check([entry]),
        });
  if (taken === null) return 2;
  if (taken.length === 0) {
    world.out(`${say('round-nothing')}\n`);
    return 0;
  }
  const history = [...record.history, ...taken].sort((a, b) => moment(a) - moment(b));
  inFile(nameOf(path), () => check(history));
  // A day at which the record was frozen would hide what is new.
  const { today: _frozen, ...open } = record;
  world.writeText(path, `${JSON.stringify({ ...open, history }, null, 2)}\n`);
  const n = taken.length;
  world.out(
    options.import === undefined
      ? `${say('round-kept', { file: path, n, day: today })}\n${say('round-first-flush')}\n`
      : `${say('import-done', { n, file: path })}\n`,
  );
  return 0;
}

const NOON = 0.5;
const moment = (entry: object): number => ('at' in entry ? momentOf(String(entry.at), NOON) : 0);

function openOf(given: unknown): number {
  const open = given === undefined ? 1 : Number(given);
  if (Number.isInteger(open) && open >= 1) return open;
  throw new InputError('--open', 'must be a whole number of taps, 1 or more');
}

/** Readings of a CSV file; rows that cannot be used are reported by line and kept aside. Null: not confirmed. */
async function importFrom(
  world: World,
  say: Say,
  plant: Plant,
  file: string,
  options: RoundOptions,
  record: {
    readonly history: readonly object[];
    readonly check: (entry: HistoryEntry) => void;
  },
): Promise<HistoryEntry[] | null> {
  const table = readTable(await world.readText(file), file);
  const guessed = guessColumns(table.header, plant);
  const columns =
    options.columns === undefined ? guessed : nameColumns(guessed, options.columns, plant);
  world.out(`${say('import-columns')}\n`);
  for (const [column, meaning] of columns) {
    world.out(`  ${say('import-column', { column, meaning: meaningText(meaning) })}\n`);
  }
  inFile(file, () => checkColumns(columns));
  if (!options.yes && !(await confirmed(world, say))) {
    world.err(`${say('import-not-confirmed')}\n`);
    return null;
  }
  const { entries, bad } = inFile(file, () => readingsOf(table, columns, record.check));
  if (bad.length > 0) putAside(world, say, file, table, bad);
  const taken = unknownTo(record.history, entries);
  const known = entries.length - taken.length;
  if (known > 0) world.out(`${say('import-known', { n: known })}\n`);
  return taken;
}

async function confirmed(world: World, say: Say): Promise<boolean> {
  world.out(`${say('import-confirm')}\n`);
  const answer = (await world.nextLine()) ?? '';
  return say('import-yes').split(' ').includes(answer.trim().toLowerCase());
}

function putAside(
  world: World,
  say: Say,
  file: string,
  table: Table,
  refused: readonly BadRow[],
): void {
  const aside = `${file}.aside.csv`;
  world.writeText(aside, asideOf(table, refused));
  world.err(`${say('import-aside', { n: refused.length, file: aside })}\n`);
  for (const { line, message } of refused) {
    world.err(`  ${say('import-bad-row', { line, message })}\n`);
  }
}

function exportTo(
  world: World,
  say: Say,
  { history }: RecordFile,
  plant: Plant,
  file: string,
): number {
  const gauges = plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id);
  const readings = history.filter((entry) => 'bar' in entry) as unknown as HistoryEntry[];
  world.writeText(file, csvOf(readings, gauges));
  world.out(`${say('export-done', { n: readings.length, file })}\n`);
  return 0;
}

/** Adds `round` to the command line. */
export function registerRound(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  withUnits(cli.command('round <file>', say('help-round')), say)
    .option('--open <taps>', say('help-round-open'))
    .option('--import <csv>', say('help-round-import'))
    .option('--columns <meanings>', say('help-round-columns'))
    .option('--yes', say('help-round-yes'))
    .option('--export <csv>', say('help-round-export'))
    .example('gaugewalk round plant.json')
    .example('gaugewalk round plant.json --import readings.csv')
    .action((file: string, options: RoundOptions) =>
      runRound(world, knowledge, say, file, options),
    );
}
