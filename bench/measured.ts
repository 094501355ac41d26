import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';

/**
 * Writes docs/measured.md out of what the full run gathered: `npm run test:full` has the tests append their figures to
 * `.measured.jsonl` and the benches print to `.measured.txt`, and then calls this.
 */
const FIGURES = '.measured.jsonl';
const BENCHES = '.measured.txt';

interface Figure {
  readonly name: string;
  readonly value: number | string;
  readonly unit: string;
  readonly wanted: string;
}

if (!existsSync(FIGURES))
  throw new Error(`${FIGURES} is missing: it is made by npm run test:full, which ends with this`);
// a figure taken twice counts as it was last
const figures = new Map<string, Figure>(
  readFileSync(FIGURES, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Figure)
    .map((figure) => [figure.name, figure]),
);
const shown = (value: number | string): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(4))) : value;
const rows = [...figures.values()]
  .sort((a, b) => a.name.localeCompare(b.name))
  .map(({ name, value, unit, wanted }) => `| ${name} | ${shown(value)} ${unit} | ${wanted} |`);
const benches = existsSync(BENCHES)
  ? ['', '## Benches', '', '```', readFileSync(BENCHES, 'utf8').trim(), '```']
  : [];
writeFileSync(
  'docs/measured.md',
  [
    '# What was measured',
    '',
    `Made by \`npm run test:full\` on ${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}, ${process.platform} ${process.arch}, ${cpus().length} cores. Nothing in it is typed in.`,
    '',
    '| what | measured | to reach |',
    '|---|---|---|',
    ...rows,
    ...benches,
    '',
  ].join('\n'),
);
rmSync(FIGURES);
rmSync(BENCHES, { force: true });
