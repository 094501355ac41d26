import { diagnose } from '../shared/diagnosis/diagnose.ts';
import { play } from '../src/assess/interview.ts';
import { worldOf } from '../src/assess/world.ts';
import { latestRuleSet } from '../src/rules/read.ts';

/**
 * One diagnosis with its next question on plants of three gauges, along whole interviews of a technician, once loaded:
 * `node .bench/bench/diagnosis.js [INTERVIEWS] [SEED]`. Wall-clock, so run it on a quiet machine.
 */
const interviews = Number(process.argv[2] ?? 40);
const seed = Number(process.argv[3] ?? 77);
const { ruleSet, words } = latestRuleSet();
const said = words.en;
if (!said) throw new Error('no English words');

const timed: { readonly answers: number; readonly ms: number }[] = [];
for (let index = 0; index < interviews + 10; index++) {
  const world = worldOf(ruleSet, { seed, sampling: 'rates', gauges: 3 }, index);
  const { answers } = play(world, ruleSet, said, 'technician', 'next');
  // The first ten only warm the machine up.
  if (index < 10) continue;
  for (let given = 1; given <= answers.length; given++) {
    const started = performance.now();
    diagnose({ plant: world.told, answers: answers.slice(0, given) }, ruleSet, said, '2026-11-25');
    timed.push({ answers: given, ms: performance.now() - started });
  }
}

const at = (values: readonly number[], share: number) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length * share)]?.toFixed(1) ?? '–';
const line = (name: string, values: readonly number[]) =>
  process.stdout.write(
    `${name.padEnd(22)} median ${at(values, 0.5)} ms, 95th percentile ${at(values, 0.95)} ms (${values.length})\n`,
  );
process.stdout.write(`diagnosis with its next question, three gauges, seed ${seed}\n`);
line(
  'all',
  timed.map(({ ms }) => ms),
);
for (const [from, to] of [
  [1, 5],
  [6, 10],
  [11, 15],
  [16, 40],
] as const)
  line(
    `${from}–${to} answers`,
    timed.filter(({ answers }) => answers >= from && answers <= to).map(({ ms }) => ms),
  );
