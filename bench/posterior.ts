import { type Cause, type Finding, ours, theirs } from '../tests/outside/networks.ts';

/**
 * Our posterior against a general-purpose Bayesian network library (bayesjs, junction tree) on the same network, both
 * building it from the same lists: independent causes, noisy-or findings. Ours holds at most two causes together.
 */
const ROUNDS = 15;

process.stdout.write('posterior of the same network, milliseconds (median)\n');
for (const causes of [4, 8, 12, 16]) compared(causes, 6);

function compared(count: number, findingCount: number): void {
  const causes: Cause[] = Array.from({ length: count }, (_, i) => ({
    id: `c${i}`,
    prior: 0.01 + 0.002 * i,
  }));
  const findings: Finding[] = Array.from({ length: findingCount }, (_, i) => ({
    id: `f${i}`,
    leak: 0.03,
    strengths: { [`c${i % count}`]: 0.8, [`c${(i + 2) % count}`]: 0.5 },
    seen: i % 2 === 0,
  }));
  const library = medianMs(() => theirs(causes, findings));
  const own = medianMs(() => ours(causes, findings));
  process.stdout.write(
    `  ${String(count).padStart(3)} causes, ${findingCount} findings: ours ${own.toFixed(3)}, library ${library.toFixed(3)}, ratio ${(library / own).toFixed(1)}\n`,
  );
}

function medianMs(run: () => unknown): number {
  run();
  const times = Array.from({ length: ROUNDS }, () => {
    const started = performance.now();
    run();
    return performance.now() - started;
  });
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)] ?? 0;
}
