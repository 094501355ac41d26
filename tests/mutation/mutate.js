import { readdirSync, readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { areas } from './areas.js';
import { keyOf } from './sampled.js';

/**
 * Changes the code in small ways and counts how many changes the tests notice: a seeded random sample of all mutants of
 * an area, each as likely as the next. Works in a copy; the tree itself is never touched.
 *
 *     npm run mutate -- hydraulics --seed 1 --mutants 100
 */
const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: {
    seed: { type: 'string', default: '1' },
    mutants: { type: 'string', default: '100' },
  },
});
const name = positionals[0] ?? '';
const area = areas[name];
const [seed, wanted] = [Number(values.seed), Number(values.mutants)];
if (!area || !Number.isInteger(seed) || !(wanted > 0)) {
  say(`npm run mutate -- ${Object.keys(areas).join('|')} [--seed 1] [--mutants 100]`);
  process.exit(2);
}

const all = await everyMutant(area.mutate);
const drawn = draw(all, wanted, seed);
process.env.GAUGEWALK_MUTATE = name;
process.env.GAUGEWALK_DRAWN = JSON.stringify(drawn.map(({ key }) => key));
const results = await new Stryker({
  mutate: drawn.map(({ range }) => range),
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.js' },
  plugins: ['@stryker-mutator/vitest-runner', './tests/mutation/sampled.js'],
  checkers: ['sampled'],
  coverageAnalysis: 'perTest',
  concurrency: 1,
  // TypeScript 7 has no interface that Stryker could rewrite a tsconfig with; none needs rewriting.
  tsconfigFile: 'none.json',
  // A machine at work on other things must not make a slow survivor look like an endless loop.
  timeoutMS: 30_000,
  timeoutFactor: 3,
  reporters: ['progress-append-only'],
  tempDirName: '.stryker-tmp',
  ignorePatterns: ['/dist', '/bench', '/.bench', '/coverage', '/web', '/docs', '*.tgz'],
  allowConsoleColors: false,
  logLevel: 'warn',
}).runMutationTest();
report(results.filter(({ status }) => status !== 'CompileError'));

/** Every mutant of the files whose path matches, with its key and the range that holds it. */
async function everyMutant(patterns) {
  const paths = readdirSync('shared', { recursive: true })
    .map((path) => `shared/${path}`)
    .filter((path) => path.endsWith('.ts') && patterns.some((pattern) => pattern.test(path)))
    .toSorted();
  const quiet = { debug() {}, info() {}, warn() {}, isDebugEnabled: () => false };
  const { mutants } = await new Instrumenter(quiet).instrument(
    paths.map((path) => ({ name: path, mutate: true, content: readFileSync(path, 'utf8') })),
    { plugins: null, excludedMutations: [], ignorers: [] },
  );
  return mutants.map((mutant) => {
    const { start, end } = mutant.location;
    const range = `${mutant.fileName}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
    return { key: keyOf(mutant.fileName, mutant), range };
  });
}

/** So many of the items, each as likely as the next; the same for the same seed. */
function draw(items, count, from) {
  const left = [...items];
  const random = mulberry32(from);
  const taken = [];
  while (taken.length < count && left.length > 0) {
    taken.push(...left.splice(Math.floor(random() * left.length), 1));
  }
  return taken;
}

/** A small generator of evenly spread numbers in [0, 1). */
function mulberry32(from) {
  let state = from >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

function report(outcomes) {
  const count = (status) => outcomes.filter((each) => each.status === status).length;
  const [killed, timedOut] = [count('Killed'), count('Timeout')];
  const [survived, uncovered] = [count('Survived'), count('NoCoverage')];
  const judged = killed + timedOut + survived + uncovered;
  for (const { status, fileName, location, mutatorName, replacement } of outcomes) {
    if (status === 'Killed') continue;
    const path = fileName.slice(fileName.lastIndexOf('/shared/') + 1);
    say(`${status} ${path}:${location.start.line} ${mutatorName}`);
    say(`    - ${textOf(path, location)}`);
    say(`    + ${oneLine(replacement)}`);
  }
  say(
    `${name}: seed ${seed}, ${judged} of ${all.length} mutants: ${killed} killed, ${timedOut} timed out, ` +
      `${survived} survived, ${uncovered} not covered, ${outcomes.length - judged} failed to run`,
  );
  const [low, high] = wilson(killed + timedOut, judged);
  const percent = (share) => `${(100 * share).toFixed(0)} %`;
  say(
    `noticed: ${percent((killed + timedOut) / judged)} (95 % interval ${percent(low)} to ${percent(high)})`,
  );
}

/** Interval of 95 % for a share (E. B. Wilson, J. Am. Stat. Assoc. 22, 209, 1927). */
function wilson(hits, n) {
  const z = 1.96;
  const p = hits / n;
  const middle = (p + z ** 2 / (2 * n)) / (1 + z ** 2 / n);
  const half = (z / (1 + z ** 2 / n)) * Math.sqrt((p * (1 - p)) / n + z ** 2 / (4 * n ** 2));
  return [middle - half, middle + half];
}

function textOf(path, { start, end }) {
  const lines = readFileSync(path, 'utf8')
    .split('\n')
    .slice(start.line - 1, end.line);
  if (lines.length === 1) return oneLine(lines[0].slice(start.column - 1, end.column - 1));
  return oneLine(lines.join('\n').slice(start.column - 1));
}

function oneLine(text) {
  const flat = text.replace(/\s+/g, ' ').trim();
  return flat.length > 150 ? `${flat.slice(0, 150)} …` : flat;
}

function say(line) {
  process.stdout.write(`${line}\n`);
}
