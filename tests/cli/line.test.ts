import { readFileSync } from 'node:fs';
import cac from 'cac';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { InputError } from '../../shared/common/errors.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { registerChlorine } from '../../src/cli/chlorine.ts';
import { registerLine } from '../../src/cli/line.ts';
import type { World } from '../../src/cli/world.ts';

const words = new URL('../../rules/2026-12-01/words/en/', import.meta.url);
const phrases: Record<string, string> = Object.assign(
  {},
  ...['phrases.yaml', 'phrases-line.yaml', 'phrases-ask.yaml'].map(
    (file) => parse(readFileSync(new URL(file, words), 'utf8')).phrases,
  ),
);
const say = (key: string, holes: Readonly<Record<string, string | number>> = {}) => {
  const text = phrases[key];
  if (text === undefined) throw new Error(`no phrase "${key}"`);
  return text.replace(/\{(\w+)\}/g, (_, hole) => String(holes[hole]));
};

/** Runs a command line on files in memory; returns what it printed. */
async function run(args: string[], files: Record<string, string> = {}): Promise<string> {
  let printed = '';
  const io: World = {
    interactive: false,
    nextLine: async () => null,
    close: () => {},
    exists: (path) => path in files,
    writeText: () => {},
    now: () => new Date(2026, 10, 25),
    readText: async (path) => files[path] ?? Promise.reject(new InputError(path, 'no such file')),
    out: (text) => {
      printed += text;
    },
    err: () => {},
  };
  const cli = cac('gaugewalk');
  registerLine(cli, io, say, {});
  registerChlorine(cli, io, say, {});
  cli.parse(['node', 'gaugewalk', ...args], { run: false });
  await cli.runMatchedCommand();
  return printed;
}

const files = {
  'plant.json': JSON.stringify(fernhollow),
  'case.json': JSON.stringify({ plant: fernhollow, answers: [] }),
  'broken.json': '{ "name": ',
  'bad.json': JSON.stringify({
    ...fernhollow,
    line: [...fernhollow.line, { id: 'x', kind: 'valve' }],
  }),
  'bad-case.json': JSON.stringify({ plant: { name: 'x', line: [] } }),
};

describe('gaugewalk line', () => {
  it('prints the contract’s shape as JSON, every part in order', async () => {
    const result = JSON.parse(await run(['line', 'plant.json', '--open', '2', '--json'], files));
    expect(Object.keys(result)).toEqual([
      'running',
      'flowLpm',
      'points',
      'npshMarginM',
      'cycle',
      'assumed',
    ]);
    expect(result.points.map((point: { after: string }) => point.after)).toEqual(
      fernhollow.line.map((part) => part.id),
    );
    expect(result.running).toBe('cycling');
    expect(result.cycle).toMatchObject({ lowBar: 2, highBar: 3.5 });
    expect(result.assumed).toContainEqual({
      part: 'sed-2',
      field: 'clean.linearShare',
      value: 0.7,
    });
  });

  it('rests at cut-out with --open 0', async () => {
    const result = JSON.parse(await run(['line', 'plant.json', '--open', '0', '--json'], files));
    expect(result).toMatchObject({ running: 'off', flowLpm: 0, cycle: null });
    expect(result.points.find((point: { after: string }) => point.after === 'pump').bar).toBe(3.5);
  });

  it('takes a case for the plant in it', async () => {
    const plain = await run(['line', 'plant.json', '--json'], files);
    expect(await run(['line', 'case.json', '--json'], files)).toBe(plain);
  });

  it('tells people in a table what flows, where the pressure goes and what was assumed', async () => {
    const text = await run(['line', 'plant.json', '--open', '1'], files);
    expect(text).toContain('Fernhollow guesthouse');
    expect(text).toMatch(/Flow: 10\.\d L\/min\./);
    expect(text).toMatch(/sed-1\s+sediment filter\s+2\.\d\d\n/);
    expect(text).toContain('Taken for granted');
    expect(text).not.toMatch(/\{|NaN|undefined/);
  });

  it.each([
    ['broken.json', ['line', 'broken.json'], 'broken.json', /is not JSON/],
    ['a part behind the house', ['line', 'bad.json'], 'bad.json: line[15]', /house is the last/],
    [
      'a case with a bad plant',
      ['line', 'bad-case.json'],
      'bad-case.json: plant.line',
      /at least 1/,
    ],
    ['no file', ['line', 'none.json'], 'none.json', /no such file/],
    ['half a tap', ['line', 'plant.json', '--open', '1.5'], '--open', /whole number/],
    ['minus one tap', ['line', 'plant.json', '--open=-1'], '--open', /whole number/],
    ['a word for taps', ['line', 'plant.json', '--open', 'many'], '--open', /whole number/],
  ])('refuses %s, naming the place', async (_, args, where, message) => {
    await expect(run(args, files)).rejects.toMatchObject({
      where,
      message: expect.stringMatching(message),
    });
  });

  it('speaks of no pump where there is none', async () => {
    const hill = JSON.stringify({
      name: 'Upper field',
      line: [
        { id: 'tank', kind: 'tank', uphill: true },
        { id: 'house', kind: 'house' },
      ],
    });
    const shut = await run(['line', 'hill.json', '--open', '0'], { 'hill.json': hill });
    expect(shut).toContain('Nothing flows.\n');
    expect(shut).not.toContain('pump');
    expect(await run(['line', 'hill.json'], { 'hill.json': hill })).not.toContain('pump');
    expect(await run(['line', 'plant.json', '--open', '0'], files)).toContain('the pump rests');
  });
});

describe('gaugewalk chlorine', () => {
  const args = (litres: string, percent: string, dose: string) => [
    'chlorine',
    '--litres',
    litres,
    '--percent',
    percent,
    '--mg-per-litre',
    dose,
  ];

  it('prints millilitres, waiting time and whether to flush as JSON', async () => {
    const result = JSON.parse(await run([...args('10000', '12.5', '5'), '--json']));
    expect(result).toMatchObject({ millilitres: 400, waitMinutes: 60, thenFlush: false });
  });

  it('tells people what to by-pass and to take care', async () => {
    const text = await run(args('200', '5', '50'));
    expect(text).toContain('200 mL of 5 % product for 200 L');
    expect(text).toContain('Let it stand for 8 h');
    expect(text).toContain('carbon filter, membrane, softener');
    expect(text).toMatch(/Nobody drinks it before/);
    expect(text).toMatch(/Gloves, goggles/);
    expect(text).toMatch(/Local codes and licensed trades/);
  });

  it.each([
    ['more than 500 mg/L', args('100', '5', '501'), '--mg-per-litre', /harms people/],
    ['nothing to fill', args('0', '5', '5'), '--litres', /above zero/],
    ['a word', args('ten', '5', '5'), '--litres', /above zero/],
    ['no strength', ['chlorine', '--litres', '5', '--mg-per-litre', '5'], '--percent', /missing/],
  ])('refuses %s', async (_, given, where, message) => {
    await expect(run(given)).rejects.toMatchObject({
      where,
      message: expect.stringMatching(message),
    });
  });
});
