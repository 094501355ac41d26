import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { dangerQuestion } from '../../shared/interview/danger.ts';
import { type Field, optionsOf } from '../../shared/interview/form.ts';
import { readReply, typingOf } from '../../shared/interview/reply.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { main } from '../../src/cli/main.ts';
import { processWorld } from '../../src/cli/world.ts';
import { guessColumns, nameColumns } from '../../src/history/columns.ts';
import { readingsOf, readTable } from '../../src/history/csv.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { tried } from '../cli/world.ts';
import { caseArb } from '../diagnosis/random-case.ts';
import { full, measured } from '../full.ts';
import { usual } from '../upkeep/trials.ts';
import { plantWith } from '../upkeep/virtual.ts';

const seed = 20261125;
const inside = /node_modules|\.ts:\d|\bat [\w.]+ \(|TypeError|RangeError|undefined/;

const junk = fc.oneof(
  fc.constantFrom<unknown>(null, true, -1, 0, 1e308, 5e-324, -0, '', [], {}, [[]], 'unknown'),
  fc.constantFrom<unknown>(
    '__proto__',
    'constructor',
    'toString',
    '2026-02-31',
    '1e999',
    'x'.repeat(5000),
    { open: 1e9 },
  ),
  fc.jsonValue({ maxDepth: 3 }),
);

/** Puts something else, or nothing, at one place of a JSON value; `at` walks there. */
function damaged(value: unknown, at: readonly number[], put: unknown): unknown {
  const [step, ...rest] = at;
  if (step === undefined || typeof value !== 'object' || value === null) return put;
  const keys = Object.keys(value);
  if (keys.length === 0) return put;
  const key = keys[step % keys.length]!;
  const inner = damaged((value as Record<string, unknown>)[key], rest, put);
  if (Array.isArray(value)) return value.map((item, i) => (String(i) === key ? inner : item));
  return { ...value, [key]: inner };
}

const damagedCase = fc
  .tuple(caseArb, fc.array(fc.nat(40), { minLength: 1, maxLength: 5 }), junk)
  .map(([{ plant, answers }, at, put]) => damaged({ plant, answers }, at, put));

describe('a damaged case or plant', () => {
  it(`gives a result or one line with the place, on every command that reads one (seed ${seed})`, async () => {
    const numRuns = full ? 2000 : 40;
    const commands = ['diagnose', 'line', 'due', 'buy'];
    await fc.assert(
      fc.asyncProperty(damagedCase, fc.constantFrom(...commands), async (input, command) => {
        const files = { 'case.json': JSON.stringify(input) };
        const { code, out, err } = await tried([command, 'case.json', '--json'], { files });
        if (code === 0) expect(JSON.stringify(JSON.parse(out))).not.toContain('NaN');
        else {
          expect([code, err.trim().split('\n').length]).toEqual([2, 1]);
          expect(err.replaceAll(JSON.stringify(input), '')).not.toMatch(inside);
        }
      }),
      { numRuns, seed },
    );
    measured('damaged cases through the command line, no crash', numRuns, 'cases');
  }, 3_600_000);
});

describe('a damaged table of readings', () => {
  const plant = parsePlant(plantWith(usual.control, 0.1, '2026-01-05'));
  const cell = fc.oneof(
    fc.constantFrom('2026-11-25', '25.11.2026', '31/31/2026', 'closed', '1', '3,4', '3.4', 'Date'),
    fc.constantFrom('G1', 'G1 psi', 'taps', '"', '""', '\u0000', '-1', '1e999', '∞', '', ' ', '💧'),
    fc.string({ maxLength: 10 }),
  );
  const row = fc
    .tuple(fc.array(cell, { maxLength: 8 }), fc.constantFrom(',', ';', '\t'))
    .map(([cells, mark]) => cells.join(mark));
  const text = fc
    .tuple(fc.boolean(), fc.array(row, { maxLength: 12 }), fc.constantFrom('\n', '\r\n', '\r'))
    .map(([good, rows, end]) => [...(good ? ['Date;G1 psi;Taps'] : []), ...rows].join(end));

  it(`loses nothing but what it names, and is refused by a line of its own (seed ${seed})`, () => {
    const numRuns = full ? 50_000 : 3000;
    fc.assert(
      fc.property(text, fc.string({ maxLength: 30 }), (csv, columns) => {
        const refusal = refused(() => {
          const table = readTable(csv, 'file.csv');
          const { entries, bad } = readingsOf(table, guessColumns(table.header, plant));
          expect(entries.length + bad.length).toBe(table.rows.length);
          nameColumns(guessColumns(table.header, plant), columns, plant);
        });
        if (refusal !== null) expect(refusal).toBeInstanceOf(InputError);
      }),
      { numRuns, seed },
    );
    measured('damaged CSV texts, no crash', numRuns, 'texts');
  }, 600_000);
});

function refused(act: () => void): unknown {
  try {
    act();
    return null;
  } catch (error) {
    if (error instanceof Error && error.name === 'AssertionError') throw error;
    return error;
  }
}

describe('whatever is typed', () => {
  const said = fc.oneof(
    fc.constantFrom('', ' ', '?', 'u', 'back', '1', '1 2', '-1', '999', '\u0000', '\u202e', '💧'),
    fc.constantFrom('(a+)+$', '[', '\\', '<script>', "'; drop table", 'no no no no no no'),
    fc.string({ unit: 'binary', maxLength: 40 }).map((text) => text.replaceAll(/[\r\n]/g, ' ')),
  );

  it(`comes to an answer the field has, or to none, at every kind of field (seed ${seed})`, () => {
    const { ruleSet, words } = latestRuleSet();
    const english = words.en!;
    const options = (question: string) =>
      optionsOf(question, ruleSet.questions[question]!.answers, english);
    const typing = typingOf(english, options(dangerQuestion(ruleSet)));
    const key = { key: 'value', text: null };
    const fields: Field[] = [
      ...Object.keys(ruleSet.questions).flatMap((question): Field[] => [
        { ...key, kind: 'one', options: options(question) },
        { ...key, kind: 'many', options: options(question) },
      ]),
      { ...key, kind: 'figure', quantity: 'pressure', orWords: [] },
      { ...key, kind: 'day' },
    ];
    const numRuns = full ? 100_000 : 2000;
    fc.assert(
      fc.property(said, fc.constantFrom(...fields), (line, field) => {
        const reply = readReply(line, field, typing, siUnits);
        if (reply.kind !== 'filled' || reply.value === null) return;
        if ('options' in field) {
          const ids = field.options.map(({ id }) => id);
          for (const id of [reply.value].flat()) expect(ids).toContain(id);
        } else if (field.kind === 'figure') expect(Number.isFinite(reply.value)).toBe(true);
      }),
      { numRuns, seed },
    );
    measured('texts typed at one field, no crash', numRuns, 'texts');
  }, 600_000);

  it(`is understood or asked again, to the end of the pipe (seed ${seed})`, async () => {
    const numRuns = full ? 300 : 6;
    await fc.assert(
      fc.asyncProperty(fc.array(said, { maxLength: 20 }), async (lines) => {
        const { code, out, err } = await tried(['ask', 'two-stages'], { lines });
        expect([code, err]).toEqual([0, '']);
        expect(out).not.toMatch(inside);
      }),
      { numRuns, seed },
    );
    measured('interviews typed at random, no crash', numRuns, 'interviews');
  }, 1_800_000);

  it.each([
    ['a page without a break', 'a'.repeat(200_000)],
    ['many words', 'weak brown water '.repeat(20_000)],
    ['commas', ','.repeat(200_000)],
    ['accents on accents', `a${'\u0301'.repeat(100_000)}`],
  ])('%s takes no longer than a moment', async (_what, line) => {
    const { user } = process.cpuUsage();
    const { code } = await tried(['ask', 'two-stages'], { lines: ['none', 'none', line] });
    expect(code).toBe(0);
    expect(process.cpuUsage().user - user).toBeLessThan(5e6);
  });
});

describe('a strange file name', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-names-'));
  const rules = latestRuleSet();
  afterAll(() => rmSync(folder, { recursive: true }));

  const real = processWorld();
  const names = ['', '\u0000', 'a\nb', 'x'.repeat(5000), `${folder}/no/such`, '-x'];
  const commands = names
    .flatMap((name) => [
      ['diagnose', name],
      ['rules', 'check', name],
      ['rules', 'draft', '2030-01-01', '--to', `${name}\u0000`],
      ['rules', 'learn', name],
    ])
    .concat([
      ['diagnose', folder],
      ['rules', 'learn', folder],
    ]);
  const told = commands.map((args) => ({ args, shown: JSON.stringify(args).slice(0, 70) }));
  it.each(told)('is refused in one line: $shown', async ({ args }) => {
    const err: string[] = [];
    const world = { ...real, out: () => {}, err: (text: string) => void err.push(text) };
    expect(await main(args, world, () => rules)).toBe(2);
    expect(err).toHaveLength(1);
    expect(err[0]).toMatch(/^[^\n]+\n$/);
    expect(err[0]).not.toMatch(inside);
  });
});
