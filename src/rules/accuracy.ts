import { play } from '../assess/interview.ts';
import { worldOf } from '../assess/world.ts';
import type { ReadRuleSet } from './read.ts';

/** How often two versions name the fault first on the same virtual plants, and whether the difference is more than chance. */
export interface Accuracy {
  readonly worlds: number;
  readonly a: number;
  readonly b: number;
  /** worlds that only one of them got right */
  readonly onlyA: number;
  readonly onlyB: number;
  /** chance of the second doing so much worse, or still worse, if both were equally good (exact McNemar test, one-sided) */
  readonly chanceOfWorse: number;
}

/** Below this the second version is worse beyond noise. */
const NOISE = 0.05;
const SEED = 1;

/**
 * Plays whole interviews under both versions on the same plants. The plants' faults and signs are drawn around the
 * tables of the first version, each region's tables shaken (see docs/assess.md), so that a draft is measured by what
 * was held to be so before it.
 */
export function accuracyOf(a: ReadRuleSet, b: ReadRuleSet, worlds: number, seed = SEED): Accuracy {
  const right = Array.from({ length: worlds }, (_, index) =>
    [a, b].map((rules) => namesItFirst(a, rules, index, seed)),
  );
  const count = (fits: (pair: readonly boolean[]) => boolean) => right.filter(fits).length;
  const onlyA = count(([inA, inB]) => inA === true && !inB);
  const onlyB = count(([inA, inB]) => inB === true && !inA);
  return {
    worlds,
    a: count(([inA]) => inA === true),
    b: count(([, inB]) => inB === true),
    onlyA,
    onlyB,
    chanceOfWorse: tail(onlyA, onlyA + onlyB),
  };
}

export const isWorse = ({ onlyA, onlyB, chanceOfWorse }: Accuracy): boolean =>
  onlyA > onlyB && chanceOfWorse < NOISE;

function namesItFirst(drawnBy: ReadRuleSet, rules: ReadRuleSet, index: number, seed: number) {
  // drawn afresh for each: playing uses up its random numbers
  const world = worldOf(drawnBy.ruleSet, { seed, sampling: 'rates', gauges: null }, index);
  const words = rules.words[rules.ruleSet.head.languages[0] ?? ''];
  if (!words) throw new Error('a rule set without words');
  const { probabilities } = play(world, rules.ruleSet, words, 'householder', 'next');
  const overdue = world.faults.overdue.map(({ cause }) => cause);
  const [first] = [...probabilities]
    .filter(([cause]) => !overdue.includes(cause))
    .sort((x, y) => y[1] - x[1]);
  const sought = world.faults.sought.map(({ cause }) => cause);
  return (sought.length > 0 ? sought : ['nothing-wrong']).includes(first?.[0] ?? '');
}

/** P(X ≥ k) of n fair coins. */
export function tail(k: number, n: number): number {
  let choose = 1;
  let sum = 0;
  for (let i = n; i >= k; i--) {
    sum += choose;
    choose = (choose * i) / (n - i + 1);
  }
  return sum / 2 ** n;
}

export function accuracyText(accuracy: Accuracy, a: string, b: string): string {
  const { worlds, onlyA, onlyB, chanceOfWorse } = accuracy;
  const verdict = isWorse(accuracy)
    ? `${b} is worse beyond noise (p ${chanceOfWorse.toFixed(3)})`
    : onlyA === onlyB
      ? 'no difference'
      : `the difference is within noise (p ${chanceOfWorse.toFixed(2)} that ${b} is no worse)`;
  return [
    `On ${worlds} virtual plants with known faults, drawn around the tables of ${a} (seed ${SEED}), the fault is named first`,
    `  by ${a} on ${accuracy.a}, by ${b} on ${accuracy.b}; only by ${a} on ${onlyA}, only by ${b} on ${onlyB}: ${verdict}`,
  ].join('\n');
}
