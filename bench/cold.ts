import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readyMade } from '../shared/plant/ready-made.ts';

/** One diagnosis from nothing, as somebody types it, against a Node that does nothing; they take turns. Needs the build. */
const ROUNDS = 10;

const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-cold-'));
const file = join(folder, 'case.json');
const plant = readyMade.find(({ id }) => id === 'two-stages')?.plant;
const answers = [
  { question: 'complaint', value: ['weak'] },
  { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 3.1, G2: 1.2, G3: 1.1 } } },
];
writeFileSync(file, JSON.stringify({ plant, answers, today: '2026-11-25' }));

const bare: number[] = [];
const cold: number[] = [];
for (let round = 0; round < ROUNDS; round++) {
  bare.push(ms(['-e', '0']));
  cold.push(ms(['bin/gaugewalk.js', 'diagnose', file]));
}
rmSync(folder, { recursive: true });
const median = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)] ?? 0;
const [theirs, ours] = [median(bare), median(cold)];
process.stdout.write(
  `cold diagnose ${ours.toFixed(0)} ms, bare node -e 0 ${theirs.toFixed(0)} ms, ratio ${(ours / theirs).toFixed(1)}\n`,
);

function ms(args: readonly string[]): number {
  const started = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return performance.now() - started;
}
