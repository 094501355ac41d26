import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parsePlant } from '../../shared/plant/schema.ts';
import { sayIn } from '../../src/cli/knowledge.ts';
import { runRound } from '../../src/cli/round.ts';
import type { World } from '../../src/cli/world.ts';
import { guessColumns, meaningText, nameColumns } from '../../src/history/columns.ts';
import { csvOf, readingsOf, readTable } from '../../src/history/csv.ts';
import { seeded } from '../seeded.ts';
import { work } from '../work/files.ts';
import { english, ruleSet } from './tables.ts';
import { usual } from './trials.ts';
import { plantWith, virtualRecord } from './virtual.ts';

const plantFile = plantWith(usual.control, 0.1, '2026-01-05');
const plant = parsePlant(plantFile);

describe('the columns of a file', () => {
  it.each([
    ['G1', 'G1 bar'],
    ['G2 (psi)', 'G2 psi'],
    ['G3_kPa', 'G3 kpa'],
    ['Date', 'at'],
    ['Datum', 'at'],
    ['taps open', 'taps'],
    ['Flow [gpm]', 'flow gpm'],
    ['water temp °F', 'temperature F'],
    ['remark', 'nothing'],
    ['G11', 'nothing'],
  ])('%s means %s', (name, meaning) => {
    const guessed = guessColumns([name], plant).get(name);
    expect(guessed && meaningText(guessed)).toBe(meaning);
  });

  it('can be named by the person; a column or meaning that is not there is refused with those that are', () => {
    const guessed = guessColumns(['P1', 'when'], plant);
    const named = nameColumns(guessed, 'P1=G1 psi', plant);
    expect(meaningText(named.get('P1')!)).toBe('G1 psi');
    expect(() => nameColumns(guessed, 'P2=G1', plant)).toThrow(/no column "P2"/);
    expect(() => nameColumns(guessed, 'P1=G7', plant)).toThrow(/no meaning/);
    expect(() => nameColumns(guessed, 'P1=G1 atm', plant)).toThrow(/no unit of pressure/);
  });
});

describe('a CSV file', () => {
  const text =
    'Date;G1 psi;Taps\r\n25.11.2026;50,5;closed\r\n2026-11-26;x;1\r\n3/4/2026;1;1\r\n2026-11-27;50;2\r\n';
  const table = readTable(text, 'file.csv');

  it('gives its readings in bar, and every bad row with its line and reason', () => {
    const { entries, bad } = readingsOf(table, guessColumns(table.header, plant));
    expect(entries).toHaveLength(2);
    // 50.5 psi × 6894.757 Pa (NIST SP 811)
    expect(entries[0]?.bar.G1).toBeCloseTo(3.48185, 4);
    expect(entries[1]?.taps).toEqual({ open: 2 });
    expect(bad.map(({ line }) => line)).toEqual([3, 4]);
    expect(bad[0]?.message).toContain('"x" is no number');
    expect(bad[1]?.message).toContain('is no day');
  });

  it('goes out and comes back the same', () => {
    const { record } = virtualRecord(seeded(3), usual);
    const history = record.history as Parameters<typeof csvOf>[0];
    const again = readTable(csvOf(history, ['G1', 'G2', 'G3']), 'file.csv');
    const { entries, bad } = readingsOf(again, guessColumns(again.header, plant));
    expect(bad).toEqual([]);
    expect(entries).toEqual(history);
  });

  it.each([
    ['nothing in it', '', 'needs a header'],
    ['a quote left open', 'a,b\n"x,1\n', 'Quote'],
    ['two columns of one name', 'a,a\n1,2\n', 'two columns'],
  ])('with %s is refused', (_, broken, message) => {
    expect(() => readTable(broken, 'file.csv')).toThrow(message);
  });
});

/** A world with files in memory and typed lines. */
function worldOf(files: Record<string, string>, typed: string[] = []) {
  const told = { out: '', err: '' };
  const world: World = {
    interactive: false,
    readText: async (path) => files[path] ?? readFileSync(path, 'utf8'),
    out: (text) => {
      told.out += text;
    },
    err: (text) => {
      told.err += text;
    },
    nextLine: async () => typed.shift() ?? null,
    close: () => {},
    exists: (path) => path in files,
    writeText: (path, text) => {
      files[path] = text;
    },
    now: () => new Date('2026-11-25T10:00:00Z'),
  };
  return { world, files, told };
}
const say = sayIn(english);
const knowledge = { rules: ruleSet, work, words: english };
const fresh = () => ({
  'plant.json': JSON.stringify({ plant: plantFile, owner: 1 }).replace(',"owner":1', ''),
});

describe('the monthly round', () => {
  it('is ten lines: gauges shut, gauges open, flow, temperature', async () => {
    const typed = ['3.4', '3,4', '', '2.9', 'two', '2.7', '2.5', '9', '50', '14'];
    const { world, files, told } = worldOf(fresh(), typed);
    expect(await runRound(world, knowledge, say, 'plant.json', {})).toBe(0);
    const { history } = JSON.parse(files['plant.json'] ?? '') as { history: object[] };
    expect(history).toMatchObject([
      { taps: 'closed', bar: { G1: 3.4, G2: 3.4 }, waterTempC: 14 },
      { taps: { open: 1 }, bar: { G1: 2.9, G2: 2.7, G3: 2.5 }, flowLpm: 10.8, waterTempC: 14 },
    ]);
    expect(told.out).toContain('That was not understood');
  });

  it('keeps what was read until the input ended; where nothing was, the file stays as it is', async () => {
    const half = worldOf(fresh(), ['3.4', '3.4']);
    expect(await runRound(half.world, knowledge, say, 'plant.json', {})).toBe(0);
    expect(JSON.parse(half.files['plant.json'] ?? '').history).toMatchObject([
      { taps: 'closed', bar: { G1: 3.4, G2: 3.4 } },
    ]);
    const none = worldOf(fresh(), []);
    const before = none.files['plant.json'];
    expect(await runRound(none.world, knowledge, say, 'plant.json', {})).toBe(0);
    expect(none.files['plant.json']).toBe(before);
  });

  it('takes a CSV file once its columns are confirmed, keeps bad rows aside, and exports again', async () => {
    const csv =
      'date,taps,G1,G2\n2026-11-01,closed,3.4,3.4\n2026-11-01,1,-3,2\n2026-11-01,1,3,2.5\n';
    const { world, files, told } = worldOf({ ...fresh(), 'in.csv': csv }, ['no', 'yes']);
    expect(await runRound(world, knowledge, say, 'plant.json', { import: 'in.csv' })).toBe(2);
    expect(await runRound(world, knowledge, say, 'plant.json', { import: 'in.csv' })).toBe(0);
    expect(told.err).toContain('line 3');
    expect(files['in.csv.aside.csv']).toMatch(
      /^date,taps,G1,G2,reason\r\n2026-11-01,1,-3,2,G1: .*zero or more\r\n$/,
    );
    expect(await runRound(world, knowledge, say, 'plant.json', { export: 'out.csv' })).toBe(0);
    expect(files['out.csv']?.split('\r\n')).toHaveLength(4);
  });
});
