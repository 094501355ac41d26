import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { describe, expect, it } from 'vitest';
import type { Result } from '../../shared/diagnosis/result.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { tried } from './world.ts';

const readings = (taps: unknown, bar: object) => ({ question: 'readings', value: { taps, bar } });
const blocked = {
  plant: fernhollow,
  answers: [
    { question: 'danger', value: [] },
    { question: 'complaint', value: ['weak', 'pulsing'] },
    { question: 'onset', value: 'gradual' },
    readings('closed', { G1: 3.4, G2: 3.4, G3: 3.4, G4: 3.4 }),
    readings({ open: 1 }, { G1: 3.0, G2: 0.5, G3: 0.4, G4: 0.4 }),
  ],
};
const text = (value: unknown) => JSON.stringify(value);
const files = (value: unknown) => ({ files: { 'case.json': text(value) } });
const withAnswer = (question: string, value: unknown) => ({
  plant: fernhollow,
  answers: [{ question, value }],
});
const withPart = (id: string, change: object) => ({
  plant: {
    ...fernhollow,
    line: fernhollow.line.map((part) => (part.id === id ? { ...part, ...change } : part)),
  },
  answers: [],
});

describe('diagnose', () => {
  it('prints the result of the contract as JSON, the day of the system where none is given', async () => {
    const { code, out, err } = await tried(['diagnose', 'case.json', '--json'], files(blocked));
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const result = JSON.parse(out) as Result;
    expect(result.today).toBe('2026-11-25');
    expect(result.causes[0]).toMatchObject({ id: 'sediment-blocked' });
    expect(Object.keys(result)).toEqual(
      expect.arrayContaining([
        ...['ruleSet', 'today', 'causes', 'segments', 'next', 'plan', 'dispatch', 'stopped'],
        ...['cautions', 'warnings', 'assumed'],
      ]),
    );
  });

  it('gives the same bytes for the same input', async () => {
    const [a, b] = await Promise.all(
      [1, 2].map(() => tried(['diagnose', 'case.json', '--json'], files(blocked))),
    );
    expect(a?.out).toBe(b?.out);
  });

  it('tells people the cause in words, what spoke for it, and the pressure lost', async () => {
    const { out } = await tried(['diagnose', 'case.json'], files(blocked));
    expect(out).toMatch(/1\. blocked sediment cartridge: (almost certain|very likely|likely), /);
    expect(out).toContain('speaks strongly for it: between G1 and G2');
    expect(out).toMatch(/G1 to G2 \(sed-1, sed-2\), one tap open: 2\.\d\d ± 0\.\d\d bar lost/);
    expect(out).toMatch(/times a clean\s+one/);
    expect(out).toContain('Change the sediment cartridge');
  });

  it('keeps to 80 columns and to plain text', async () => {
    for (const audience of ['householder', 'agent', 'technician']) {
      const { out } = await tried(['diagnose', 'case.json'], files({ ...blocked, audience }));
      const long = out.split('\n').filter((line) => line.length > 80 && line.trim().includes(' '));
      // only a single word without a place to break may stand out
      expect(long.filter((line) => !/\S{60}/.test(line))).toEqual([]);
      expect(out.includes('\u001b')).toBe(false);
    }
  });

  it('on a danger sign tells what to do now and leaves out causes and plan', async () => {
    const { code, out } = await tried(
      ['diagnose', 'case.json'],
      files(withAnswer('danger', ['shock'])),
    );
    expect(code).toBe(0);
    expect(out).toContain('Stop here');
    expect(out).toMatch(/Call an\s+electrician/);
    expect(out).not.toContain('What to do');
    expect(out).not.toContain('1.');
  });

  it('tells the agent whether to send somebody', async () => {
    const { out } = await tried(
      ['diagnose', 'case.json'],
      files({ ...blocked, audience: 'agent' }),
    );
    expect(out).toContain('Phone or visit');
  });

  it('says which parts stand on usual values, to a technician also which values', async () => {
    const bare = { plant: { name: 'bare', line: [{ id: 'house', kind: 'house' }] }, answers: [] };
    const { out } = await tried(['diagnose', 'case.json'], files(bare));
    expect(out).toMatch(/not said\n {2}Usual values.*\n?.*house/);
    const told = await tried(['diagnose', 'case.json'], files({ ...bare, audience: 'technician' }));
    expect(told.out).toContain('tap.flow 12 L/min');
  });

  it('reads standard input for a hyphen', async () => {
    const { code, out } = await tried(['diagnose', '-', '--json'], { stdin: text(blocked) });
    expect(code).toBe(0);
    expect(JSON.parse(out)).toHaveProperty('causes');
  });
});

it('an answerId in capitals is the same answer', async () => {
  const answerId = 'a2b0c1d2-93ad-4a55-9a2b-0a3d0ef1d2ab';
  const answers = [answerId, answerId.toUpperCase()].map((id, i) => ({
    ...{ answerId: id, question: 'smell', value: ['earthy', 'none'][i] },
  }));
  const told = async (given: unknown[]) =>
    (await tried(['diagnose', 'case.json', '--json'], files({ ...blocked, answers: given }))).out;
  expect(await told(answers)).toBe(await told(answers.slice(0, 1)));
});

describe('diagnose with one case a line', () => {
  const lines = [text(blocked), '{"plant": 3', text({ ...blocked, answers: [] }), '[]'];

  it('gives one result a line in the same order, an error in place of a bad line, and 2', async () => {
    const { code, out, err } = await tried(['diagnose', 'many.jsonl'], {
      files: { 'many.jsonl': `${lines.join('\n')}\n` },
    });
    const rows = out
      .trimEnd()
      .split('\n')
      .map((row) => JSON.parse(row));
    expect(rows).toHaveLength(4);
    expect(rows[0].causes[0].id).toBe('sediment-blocked');
    expect(rows[1].error).toMatchObject({ line: 2, where: 'case' });
    expect(rows[1].error.message).toContain('line 2, column 12');
    expect(rows[2]).toHaveProperty('causes');
    expect(rows[3].error.line).toBe(4);
    expect(code).toBe(2);
    expect(err).toMatch(/^many\.jsonl: .*2.*\n$/);
  });

  it('ends with 0 when every line could be used, line ends of either kind', async () => {
    const { code, out } = await tried(['diagnose', 'many.jsonl'], {
      files: { 'many.jsonl': `${lines[0]}\r\n\n${lines[2]}` },
    });
    expect(code).toBe(0);
    expect(out.trimEnd().split('\n')).toHaveLength(2);
  });
});

describe('what cannot be used is refused with exit 2 and one line naming the place', () => {
  const house = { id: 'house', kind: 'house' };
  it.each<[string, unknown, RegExp]>([
    ['no plant', { answers: [] }, /case\.json: plant: is missing: give a value here/],
    ['no answers', { plant: fernhollow }, /case\.json: answers: is missing/],
    ['not a case', [], /case\.json: case: must be an object/],
    ['an unknown field', { ...blocked, foo: 1 }, /case\.json: foo: unknown field "foo"/],
    [
      'an unknown plant field',
      withPart('uv', { watts: 3 }),
      /plant\.line\[\d+\]\.watts: unknown field/,
    ],
    [
      'an id twice',
      { plant: { name: 'x', line: [house, house] }, answers: [] },
      /case\.json: plant\.line\[\d\].*: /,
    ],
    ['an ill-formed id', withPart('uv', { id: 'u v' }), /plant\.line\[\d+\]\.id: /],
    ['no house', { plant: { name: 'x', line: [{ id: 't', kind: 'tank' }] }, answers: [] }, /house/],
    [
      'cut-in not under cut-out',
      withPart('pump', { control: { kind: 'pressure-switch', cutInBar: 4, cutOutBar: 3 } }),
      /plant\.line\[2\]\.control/,
    ],
    [
      'head that rises with flow',
      withPart('pump', {
        curve: [
          { flowLpm: 0, headM: 30 },
          { flowLpm: 20, headM: 40 },
        ],
      }),
      /plant\.line\[2\]\.curve/,
    ],
    ['a negative number', withPart('suction', { lengthM: -1 }), /plant\.line\[1\]\.lengthM/],
    ['an unknown question', withAnswer('smel', 'none'), /answers\[0\]\.question: .*"smel"/],
    ['an unknown answer', withAnswer('smell', 'roses'), /answers\[0\]\.value: .*use one of none/],
    [
      'an unknown gauge',
      { plant: fernhollow, answers: [readings('closed', { G9: 3 })] },
      /G1, G2, G3, G4/,
    ],
    [
      'two pressure units',
      withAnswer('readings', { taps: 'closed', bar: { G1: 3 }, psi: { G1: 40 } }),
      /two pressure units/,
    ],
    ['a value twice', withAnswer('complaint', ['weak', 'weak']), /stands twice/],
    [
      'no time at all',
      withAnswer('flow', { litres: 8, seconds: 0 }),
      /answers\[0\]\.value\.seconds/,
    ],
    [
      'zero minutes',
      withAnswer('pressure-hold', { lostBar: 1, minutes: 0 }),
      /answers\[0\]\.value\.minutes/,
    ],
    ['a day that is none', { ...blocked, today: '2026-02-30' }, /case\.json: today: /],
    [
      'a time without offset',
      {
        plant: fernhollow,
        answers: [{ question: 'smell', value: 'none', at: '2026-11-25T08:00:00' }],
      },
      /answers\[0\]\.at: .*e\.g\. 2026-11-25T08:30:00\+01:00/,
    ],
    ...['2026-11-25T08:00+01:00', '2026-11-25T08:00:00+0100'].map(
      (at): [string, unknown, RegExp] => [
        `a time written ${at}`,
        { plant: fernhollow, answers: [{ question: 'smell', value: 'none', at }] },
        /answers\[0\]\.at: .*with its seconds and its offset from UTC as ±hh:mm or Z, e\.g\. /,
      ],
    ),
  ])('%s', async (_, value, line) => {
    const { code, out, err } = await tried(['diagnose', 'case.json'], files(value));
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^case\.json: [^\n]+\n$/);
    expect(err).toMatch(line);
    expect(err).not.toMatch(/\bat .*:\d+:\d+|Invalid input/);
  });

  it.each([
    ['{"plant": {"name": NaN}}', /line 1, column 20/],
    ['{\n  "plant": {},\n  "answers": [1,]\n}', /line 3, column 17/],
    ['', /line 1, column 1/],
  ])('text that is no JSON: %j', async (bad, line) => {
    const { code, err } = await tried(['diagnose', 'case.json'], { files: { 'case.json': bad } });
    expect(code).toBe(2);
    expect(err).toMatch(line);
  });

  it.each<[string, readonly string[], RegExp]>([
    ['an unknown command', ['diagnos', 'x'], /^diagnos: .*did you mean "diagnose"/],
    ['an unknown option', ['diagnose', 'x', '--jsno'], /^--jsno: .*did you mean "--json"/],
    ['a missing file name', ['diagnose'], /missing required args/],
    ['too many files', ['diagnose', 'a', 'b'], /Unused args: "b"/],
    ['a file that is not there', ['diagnose', 'a'], /^a: cannot be read/],
    ['an option without a command', ['--json'], /^--json: a command must stand before it/],
    ['an option without its value', ['ask', '--case'], /value is missing/],
    [
      'a figure below zero',
      ['chlorine', '--litres', '-10', '--percent', '5', '--mg-per-litre', '5'],
      /^--litres: must be a number above zero$/m,
    ],
    ['fewer taps than none', ['line', 'a', '--open', '-1'], /^--open: /],
    ['an unknown audience', ['ask', '--for', 'bob'], /^--for: use one of householder/],
    ['an unknown unit', ['ask', '--pressure', 'atm'], /^--pressure: use one of bar/],
    ['a plant that is not there', ['ask', 'two-stage'], /did you mean "two-stages"/],
  ])('%s', async (_, args, line) => {
    const { code, out, err } = await tried(args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(line);
    expect(err.trimEnd()).not.toContain('\n');
  });
});

describe('the program as it is installed', () => {
  it('lists no option twice in the help of a command', () => {
    for (const command of ['rules', 'ask', 'work', 'line']) {
      const { stdout } = spawnSync(process.execPath, ['bin/gaugewalk.js', command, '--help'], {
        encoding: 'utf8',
      });
      const options = stdout.match(/^ +(?:-\w, )?--[\w-]+/gm) ?? [];
      expect(options.length).toBeGreaterThan(1);
      expect(new Set(options).size, command).toBe(options.length);
    }
  });

  it('answers --help with every command and 0', () => {
    const { status, stdout } = spawnSync(process.execPath, ['bin/gaugewalk.js', '--help'], {
      encoding: 'utf8',
    });
    expect(status).toBe(0);
    for (const command of ['ask', 'diagnose', 'line', 'chlorine', 'rules']) {
      expect(stdout).toContain(`  ${command} `);
    }
  });

  it('ends when the conversation ends, though a terminal goes on listening', async () => {
    const child = spawn(process.execPath, ['bin/gaugewalk.js', 'ask', 'two-stages']);
    const ended = once(child, 'close');
    // a danger sign stops the questions, Enter ends; standard input stays open as a terminal does
    child.stdin.write('1\n\n');
    const late = setTimeout(() => child.kill(), 30_000);
    expect(await ended).toEqual([0, null]);
    clearTimeout(late);
  });
});
