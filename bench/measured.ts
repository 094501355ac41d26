import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import type { Figures } from '../src/assess/figures.ts';
import type { RunWanted } from '../src/assess/run.ts';
import { assessFigures } from './assess-figures.ts';

/**
 * Writes docs/measured.md out of what was measured, and keeps it in bench/measured.json, so that parts can be measured on
 * different days. What it takes up: the figures that tests at their full size append to `.measured.jsonl`, the benches'
 * output in `.measured.txt`, and files that `npm run assess -- --json` wrote, named on the command line.
 */
const KEPT = 'bench/measured.json';
const FIGURES = '.measured.jsonl';
const BENCHES = '.measured.txt';
const ASSESS = 'npm run assess';

interface Figure {
  readonly name: string;
  readonly value: number | string;
  readonly unit: string;
  readonly wanted: string;
  /** the test file, or the command */
  readonly from: string;
  /** day, version of Node and machine */
  readonly on: string;
}

interface Kept {
  readonly figures: readonly Figure[];
  readonly benches: { readonly on: string; readonly text: string } | null;
}

const on = `${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}, ${process.platform} ${process.arch}, ${cpus().length} cores`;

const parsed = (file: string): unknown => JSON.parse(readFileSync(file, 'utf8'));

const kept: Kept = existsSync(KEPT) ? (parsed(KEPT) as Kept) : { figures: [], benches: null };

function takenUp(): Figure[] {
  const lines = existsSync(FIGURES) ? readFileSync(FIGURES, 'utf8').trim().split('\n') : [];
  const ofTests = lines.map((line) => ({ ...(JSON.parse(line) as Omit<Figure, 'on'>), on }));
  const ofAssess = process.argv.slice(2).flatMap((file) => {
    const { wanted, figures } = parsed(file) as { wanted: RunWanted; figures: Figures };
    if (wanted.from !== 0 || wanted.gauges !== null || wanted.sampling !== 'rates')
      throw new Error(`${file}: --from, --gauges and --causes must be left as they are`);
    return assessFigures(figures, wanted).map(([name, value, unit, toReach]) => ({
      ...{ name, value, unit, wanted: toReach },
      ...{ from: ASSESS, on },
    }));
  });
  return [...ofTests, ...ofAssess];
}

/** A figure taken again counts as it was last. */
function merged(before: readonly Figure[], taken: readonly Figure[]): Figure[] {
  const byName = new Map([...before, ...taken].map((figure) => [figure.name, figure]));
  return [...byName.values()].sort((a, b) => a.name.localeCompare(b.name, 'en'));
}

/** What tests and assess measure and of which no figure is here, by the beginning of its name. */
function missing(figures: readonly Figure[]): string[] {
  const isHere = (start: string): boolean => figures.some(({ name }) => name.startsWith(start));
  const ofTests = readdirSync('tests', { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(test|browser)\.ts$/.test(file))
    .sort()
    .flatMap((file) => {
      const calls = readFileSync(`tests/${file}`, 'utf8').matchAll(
        /^\s*measured\(\s*(?:'([^']+)'|`([^`$]+))/gm,
      );
      return [...calls]
        .map(([, plain, template]) => plain ?? template ?? '')
        .filter((start) => !isHere(start))
        .map((start) => `${start.replace(/[ (,]+$/, '')}: tests/${file.replaceAll('\\', '/')}`);
    });
  const assess = isHere('fault named first') ? [] : [`faults named on virtual plants: ${ASSESS}`];
  return [...ofTests, ...assess];
}

const shown = (value: number | string): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(4))) : value;

function page({ figures, benches }: Kept): string {
  const days = [...new Set(figures.map((figure) => figure.on))];
  const left = missing(figures);
  return [
    '# What was measured',
    '',
    'Written by `npm run measured`; nothing in it is typed in. DEVELOPERS.md says how to measure a part or all of it anew.',
    '',
    '| what | measured | to reach | by | run |',
    '|---|---|---|---|---|',
    ...figures.map(
      ({ name, value, unit, wanted, from, ...figure }) =>
        `| ${name} | ${shown(value)} ${unit} | ${wanted} | ${from} | ${days.indexOf(figure.on) + 1} |`,
    ),
    '',
    'Runs:',
    ...days.map((day, i) => `${i + 1}. ${day}`),
    '',
    ...(left.length > 0
      ? ['Not measured at full size yet:', ...left.map((file) => `- ${file}`), '']
      : []),
    ...(benches
      ? ['## Benches', '', `On ${benches.on}.`, '', '```', benches.text, '```']
      : ['The benches (`npm run bench`) were not run yet.']),
    '',
  ].join('\n');
}

const benches = existsSync(BENCHES)
  ? { on, text: readFileSync(BENCHES, 'utf8').trim() }
  : kept.benches;
const now: Kept = { figures: merged(kept.figures, takenUp()), benches };
writeFileSync(KEPT, `${JSON.stringify(now, null, 2)}\n`);
writeFileSync('docs/measured.md', page(now));
for (const file of [FIGURES, BENCHES]) rmSync(file, { force: true });
