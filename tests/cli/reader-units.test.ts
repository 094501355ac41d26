import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { seeded } from '../seeded.ts';
import { flowController, usual } from '../upkeep/trials.ts';
import { virtualRecord } from '../upkeep/virtual.ts';
import { carefulLines, type Found, gaugesOf } from '../work/session.ts';
import { tried } from './world.ts';

/** A reader's choice on the command line, and what none of the reader's texts may hold. */
interface Reader {
  readonly name: string;
  readonly args: readonly string[];
  readonly never: readonly RegExp[];
}
// A comma parts figures in a list as well, so only a lone one is a decimal sign; a date has neither.
const point = /(?<![\d.])\d+\.\d+(?![\d.])/;
const comma = /(?<![\d,])\d+,\d+(?![\d,])/;
const litres = /\d L\b|L\/min|litre|\blitros\b/;
const readers: readonly Reader[] = [
  {
    name: 'English, psi and US gallons',
    args: ['--pressure', 'psi', '--volume', 'US gal'],
    never: [/\bbar\b|kPa/i, litres, comma],
  },
  {
    name: 'Spanish, kPa and imperial gallons',
    args: ['--pressure', 'kPa', '--volume', 'imp gal', '--language', 'es'],
    never: [/\bbar\b|psi/i, litres, point],
  },
  {
    name: 'Spanish, bar and litres',
    args: ['--pressure', 'bar', '--volume', 'L', '--language', 'es'],
    never: [/psi|kPa|\bgal\b|gpm/i, point],
  },
];
/** Lines told that hold what they must not. Left out: what was typed, units that may be typed, a version of a format. */
const foreign = (out: string, never: readonly RegExp[]): string[] =>
  out
    .replaceAll(/^> .*$|\([^()]*(psi|US gal)[^()]*\)|^VERSION:.*$/gm, '')
    .split('\n')
    .filter((line) => never.some((pattern) => pattern.test(line)));

const bare = {
  name: 'Fernhollow annexe',
  line: ['tank', 'suction', 'pump', 'G1', 'sed-1', 'G2', 'house'].map((id) => ({
    id,
    ...(id.startsWith('G')
      ? { kind: 'gauge' }
      : id === 'sed-1'
        ? { kind: 'filter', medium: 'sediment' }
        : { kind: id }),
  })),
};
const blocked = {
  plant: fernhollow,
  today: '2026-11-25',
  answers: [
    { question: 'danger', value: [] },
    { question: 'complaint', value: ['weak', 'pulsing'] },
    { question: 'onset', value: 'gradual' },
    { question: 'flow', value: { litres: 10, seconds: 61.5, taps: { open: 1 } } },
    { question: 'precharge', value: { bar: 1.7 } },
    {
      question: 'readings',
      value: { taps: 'closed', bar: { G1: 3.45, G2: 3.45, G3: 3.4, G4: 3.4 } },
    },
    {
      question: 'readings',
      value: { taps: { open: 1 }, bar: { G1: 3.05, G2: 0.5, G3: 0.45, G4: 0.4 }, flowLpm: 6.5 },
    },
  ],
};
const record = virtualRecord(seeded(21), { ...usual, control: flowController }).record;
const withVessel = {
  plant: { ...virtualRecord(seeded(21), usual).record.plant },
  history: [1.8, 1.65, 1.55].map((bar, i) => ({
    at: `2026-0${2 * i + 1}-05`,
    question: 'precharge',
    value: { bar },
  })),
};
const files = {
  'bare.json': JSON.stringify(bare),
  'case.json': JSON.stringify(blocked),
  'record.json': JSON.stringify(record),
  'vessel.json': JSON.stringify(withVessel),
  'empty.json': JSON.stringify({ plant: bare, history: [] }),
};
/** What a careful person reads who has done the work. */
const clean = { closed: gaugesOf(fernhollow, 0), open: gaugesOf(fernhollow, 1) };
const spanish: Readonly<Record<string, string>> = { done: 'hecho', yes: 'sí', u: 'ns' };
const typed = (found: Found, args: readonly string[]): string[] =>
  carefulLines(blocked, found).map((line) =>
    args.includes('es') ? (spanish[line] ?? line) : line,
  );

interface Command {
  readonly args: readonly string[];
  readonly lines?: (args: readonly string[]) => string[];
}
const commands: readonly Command[] = [
  { args: ['diagnose', 'case.json'] },
  { args: ['line', 'bare.json', '--open', '2'] },
  { args: ['line', 'case.json', '--open', '2'] },
  { args: ['line', 'case.json', '--open', '0'] },
  { args: ['due', 'record.json', '--next-gauge'] },
  { args: ['due', 'vessel.json'] },
  { args: ['due', 'record.json', '--ics'] },
  { args: ['buy', 'record.json', '--until', '2029-01-01'] },
  { args: ['round', 'empty.json'], lines: () => ['45', '44', '38', '37', '2.5 60', '15'] },
  // gone on with: the result so far, then every earlier answer to choose one to change
  { args: ['ask', '--case', 'case.json'], lines: () => ['r', 'c', '4'] },
  {
    args: ['work', 'case.json', '--job', 'change-sediment', '--part', 'sed-1'],
    lines: (args) => typed({ job: 'change-sediment', part: 'sed-1', ...clean }, args),
  },
  {
    args: ['work', 'case.json', '--job', 'set-switch'],
    lines: (args) => typed({ job: 'set-switch' }, args),
  },
];

describe.each(readers)('to a reader of $name', ({ args: manner, never }) => {
  it.each(commands)(
    '$args speaks of no other unit and no other decimal sign',
    async ({ args, lines }) => {
      // `buy` tells no pressure and no volume, so it has no options for them.
      const told = args[0] === 'buy' ? manner.filter((_, i) => i > 3) : manner;
      const all = [...args, ...told];
      const { code, out, err } = await tried(all, {
        files,
        ...(lines && { lines: lines(all) }),
      });
      expect([code, err]).toEqual([0, '']);
      expect(out.length).toBeGreaterThan(40);
      expect(foreign(out, never)).toEqual([]);
    },
  );

  it.each(['householder', 'agent', 'technician'])(
    'so does a result for the %s',
    async (audience) => {
      const told = { 'case.json': JSON.stringify({ ...blocked, audience }) };
      const { code, out } = await tried(['diagnose', 'case.json', ...manner], { files: told });
      expect(code).toBe(0);
      expect(foreign(out, never)).toEqual([]);
    },
  );

  it('so does the dose of chlorine, which is counted in the litres that were typed', async () => {
    const dose = ['chlorine', '--litres', '10.5', '--percent', '12.5', '--mg-per-litre', '0.5'];
    const language = manner.slice(4);
    const { out } = await tried([...dose, ...language]);
    expect(out).toContain(language.length > 0 ? '12,5 %' : '12.5 %');
    expect(out).not.toMatch(language.length > 0 ? point : comma);
  });
});

describe('what is told in one unit is what files hold in bar', () => {
  it('a clean line: its table in psi is its JSON in bar', async () => {
    const psi = await tried(['line', 'case.json', '--pressure', 'psi'], { files });
    const bar = JSON.parse((await tried(['line', 'case.json', '--json'], { files })).out) as {
      points: { after: string; bar: number }[];
    };
    for (const point of bar.points) {
      const [, figure] = psi.out.match(new RegExp(`^  ${point.after} .* (-?[\\d.]+)$`, 'm')) ?? [];
      // 1 psi = 6894.757 Pa (NIST SP 811, appendix B.8)
      expect(Number(figure)).toBeCloseTo((point.bar * 1e5) / 6894.757, 0);
    }
  });

  it('the JSON of every command has the same figures whatever is chosen', async () => {
    for (const args of [
      ['line', 'case.json', '--open', '1', '--json'],
      ['due', 'record.json', '--json', '--next-gauge'],
      ['diagnose', 'case.json', '--json'],
    ]) {
      const [plain, chosen] = await Promise.all([
        tried(args, { files }),
        tried([...args, '--pressure', 'psi', '--volume', 'US gal', '--language', 'es'], { files }),
      ]);
      expect(withoutTexts(chosen?.out)).toEqual(withoutTexts(plain?.out));
    }
  });

  it('a round typed in psi and gallons is kept in bar and litres', async () => {
    const lines = ['50', '340 kPa', '2,7 bar', '36 psi', '2.5', '60', '15'];
    const units = ['--pressure', 'psi', '--volume', 'US gal'];
    const { out, files: after } = await tried(['round', 'empty.json', ...units], { files, lines });
    expect(out).toContain('In psi, or with its unit behind it');
    expect(out).toContain('In US gal, or with its unit behind it');
    // 1 psi = 6894.757 Pa, 1 US gallon = 3.785412 L (NIST SP 811, appendix B.8)
    expect(JSON.parse(after['empty.json'] ?? '{}')).toMatchObject({
      history: [
        { taps: 'closed', bar: { G1: 3.4474, G2: 3.4 } },
        { taps: { open: 1 }, bar: { G1: 2.7, G2: 2.4821 }, flowLpm: 9.46 },
      ],
    });
  });

  it('a unit that nobody knows is refused by every command that takes one', async () => {
    for (const args of [
      ['line', 'case.json'],
      ['due', 'record.json'],
      ['round', 'empty.json'],
      ['diagnose', 'case.json'],
    ]) {
      const { code, err } = await tried([...args, '--pressure', 'atm'], { files });
      expect(code).toBe(2);
      expect(err).toMatch(/^--pressure: use one of bar, psi, kPa/);
    }
  });
});

/** Figures alone: texts are for people, in their language. */
const withoutTexts = (out = '{}'): unknown =>
  JSON.parse(out, (key, value: unknown) =>
    typeof value === 'string' && /^(text|why|label|name|lookFor|by|call|says)$/.test(key)
      ? undefined
      : value,
  );
