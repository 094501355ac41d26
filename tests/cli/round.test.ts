import { expect, it } from 'vitest';
import { tried } from './world.ts';

const gauge = (id: string) => ({ id, kind: 'gauge' });
const record = JSON.stringify({
  plant: {
    name: 'Fernhollow guesthouse',
    line: [
      { id: 'tank', kind: 'tank' },
      { id: 'pump', kind: 'pump' },
      gauge('G1'),
      { id: 'sed-1', kind: 'filter', medium: 'sediment' },
      gauge('G2'),
      { id: 'house', kind: 'house' },
    ],
  },
  history: [],
});
const historyIn = (text: string | undefined): object[] =>
  (JSON.parse(text ?? '{}') as { history: object[] }).history;

/** Semicolons, decimal commas, psi, a byte order mark, days as in Germany and Spain, rows that cannot be used. */
const messy = [
  '\uFEFFFecha;Hora;G1 (psi);G2 psi;Grifos;Caudal l/min;Nota',
  '01.06.2026;08:00;50,0;49,5;cerrados;;',
  '01.06.2026;08:05;39,2;36,3;1;11,2;"lluvia; viento"',
  '31.06.2026;;39;35;1;;"sol; calor"',
  '02.08.2026;;38,9;x;1;10,1;',
  '06.09.2026;;-3;2;1;;',
  '04.10.2026;39;26',
].join('\r\n');
const files = { 'plant.json': record, 'in.csv': messy };
const imported = ['round', 'plant.json', '--import', 'in.csv'];

it('a messy file is understood column by column, its bad rows told by line and kept aside with their reason', async () => {
  const { code, out, err, files: after } = await tried(imported, { files, lines: ['y'] });
  expect(code).toBe(0);
  expect(out).toMatch(
    /Fecha → at[\s\S]*Hora → nothing[\s\S]*G1 \(psi\) → G1 psi[\s\S]*Grifos → taps/,
  );
  expect(historyIn(after['plant.json'])).toEqual([
    { at: '2026-06-01', taps: 'closed', bar: { G1: 3.44738, G2: 3.4129 } },
    { at: '2026-06-01', taps: { open: 1 }, bar: { G1: 2.70274, G2: 2.5028 }, flowLpm: 11.2 },
  ]);
  for (const line of [4, 5, 6, 7]) expect(err).toContain(`line ${line}:`);
  expect(err).toContain('G1: -0.20684 bar cannot be');
  const aside = after['in.csv.aside.csv'] ?? '';
  expect(aside.split('\r\n')[1]).toBe(
    '31.06.2026;;39;35;1;;"sol; calor";"Fecha: ""31.06.2026"" is not in the calendar"',
  );
});

it('rows mended aside are taken in; the same file again adds nothing', async () => {
  const once = await tried(imported, { files, lines: ['y'] });
  const aside = once.files['in.csv.aside.csv'] ?? '';
  const mended = { ...once.files, 'mended.csv': aside.replace('31.06.2026', '30.06.2026') };
  const second = await tried(['round', 'plant.json', '--import', 'mended.csv', '--yes'], {
    files: mended,
  });
  expect(historyIn(second.files['plant.json'])).toHaveLength(3);
  const again = await tried([...imported, '--yes'], { files: second.files });
  expect(again.out).toContain('2 readings were there already');
  expect(historyIn(again.files['plant.json'])).toHaveLength(3);
});

it('a column that nothing can be made of is said before anything is confirmed', async () => {
  const bare = { ...files, 'in.csv': 'date;G1;zzz\n2026-01-01;3;1\n' };
  const { code, out, err } = await tried(imported, { files: bare });
  expect(code).toBe(2);
  expect(err).toMatch(/none of them holds the taps.*--columns "Taps=taps"/);
  expect(out).not.toContain('yes or no');
});

it('is confirmed in the language that asks', async () => {
  const { code } = await tried(['--language', 'es', ...imported], { files, lines: ['sí'] });
  expect(code).toBe(0);
});

it('takes a unit behind a reading, and the next in the same unit', async () => {
  const lines = ['50 psi', '49', '2.7 bar', '2.5', '', ''];
  const { out, files: after } = await tried(['round', 'plant.json'], { files, lines });
  expect(historyIn(after['plant.json'])).toMatchObject([
    { taps: 'closed', bar: { G1: 3.4474, G2: 3.3784 } },
    { taps: { open: 1 }, bar: { G1: 2.7, G2: 2.5 } },
  ]);
  expect(out).toContain('In psi, or with its unit behind it');
});

it('asks again for a figure that cannot be, and loses none of those typed before', async () => {
  const lines = ['3.4', '-3.4', '3.4', '2.7', '2.5', 'ten', '10', '0', '60', '70', '18'];
  const { code, out, files: after } = await tried(['round', 'plant.json'], { files, lines });
  expect(code).toBe(0);
  expect(out.match(/That cannot be/g)).toHaveLength(3);
  expect(out.match(/What does G1 show/g)).toHaveLength(2);
  expect(out).toContain('That was not understood');
  expect(historyIn(after['plant.json'])).toMatchObject([
    { taps: 'closed', bar: { G1: 3.4, G2: 3.4 }, waterTempC: 18 },
    { taps: { open: 1 }, bar: { G1: 2.7, G2: 2.5 }, flowLpm: 10, waterTempC: 18 },
  ]);
});

it('is asked like everything else: all gauges in one line, back, help, a figure not known', async () => {
  const lines = ['<', '?', '3.4 3.3', '<', '3.5 u', '3.5 3.4', '2.7', '<', '2.6', 'u', '', ''];
  const { out, files: after } = await tried(['round', 'plant.json'], { files, lines });
  expect(out).toContain('This is the first question');
  expect(out).toContain('<        back to the answer before');
  expect(historyIn(after['plant.json'])).toEqual([
    { at: expect.any(String), taps: 'closed', bar: { G1: 3.5, G2: 3.4 } },
    { at: expect.any(String), taps: { open: 1 }, bar: { G1: 2.6 } },
  ]);
});

it('a danger sign ends it with whom to call; what was read is kept', async () => {
  const lines = ['3.4 3.3', 'burning smell', 'yes'];
  const { out, files: after } = await tried(['round', 'plant.json'], { files, lines });
  expect(out).toContain('Switch the power off at the board');
  expect(historyIn(after['plant.json'])).toMatchObject([{ taps: 'closed', bar: { G1: 3.4 } }]);
});

it('keeps what was read until the input ended', async () => {
  const { files: after } = await tried(['round', 'plant.json'], {
    files,
    lines: ['3.4', '3.3', '2'],
  });
  expect(historyIn(after['plant.json'])).toMatchObject([
    { taps: 'closed', bar: { G1: 3.4, G2: 3.3 } },
    { taps: { open: 1 }, bar: { G1: 2 } },
  ]);
});

it('takes a reading below zero at a gauge before the pump, where suction is', async () => {
  const plant = JSON.parse(record) as { plant: { line: object[] } };
  plant.plant.line.splice(1, 0, gauge('S1'));
  const { files: after } = await tried(['round', 'plant.json'], {
    files: { 'plant.json': JSON.stringify(plant) },
    lines: ['-0.1', '3.4', '3.4', '-0.2', '2.7', '2.5', '', ''],
  });
  expect(historyIn(after['plant.json'])).toMatchObject([
    { bar: { S1: -0.1 } },
    { bar: { S1: -0.2 } },
  ]);
});

it('refuses more taps than can be before anything is asked', async () => {
  const { code, out, err } = await tried(['round', 'plant.json', '--open', '99'], { files });
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toContain('open');
});
