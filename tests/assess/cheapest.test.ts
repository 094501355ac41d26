import { describe, expect, it } from 'vitest';
import { orderFor } from '../../src/assess/cheapest.ts';
import { expectedCost, type Step, stepCost } from '../../src/assess/cure.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet } = latestRuleSet();
/** Every job of the rule set cures what it cures for certain. */
const certain = {
  ...ruleSet,
  head: {
    ...ruleSet.head,
    frequencies: Object.fromEntries(
      Object.keys(ruleSet.head.frequencies).map((word) => [word, 1]),
    ) as typeof ruleSet.head.frequencies,
  },
};

const fault = (cause: string, part = 'p') => ({ cause, part });

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}

describe('the cheapest order of jobs', () => {
  it('with certain cures goes by probability over cost (Heckerman, Breese & Rommelse 1995)', () => {
    const weights = [
      [fault('valve-part-closed'), 0.15],
      [fault('outlet-restricted'), 0.5],
      [fault('tank-low'), 0.3],
    ] as const;
    const steps: Step[] = [{ job: 'fill-tank' }, { job: 'open-valves' }, { job: 'clean-outlets' }];
    const order = orderFor(certain, steps, weights, 'householder').map(({ job }) => job);
    const worth = new Map([
      ['open-valves', 0.15],
      ['clean-outlets', 0.5],
      ['fill-tank', 0.3],
    ]);
    const byRatio = [...worth].sort(
      (a, b) => b[1] / stepCost({ job: b[0] }) - a[1] / stepCost({ job: a[0] }),
    );
    // The last and dearest may be left to the search at the end.
    expect(byRatio.map(([job]) => job).slice(0, order.length)).toEqual(order);
    expect(order.length).toBeGreaterThanOrEqual(2);
  });

  it('is as cheap as the best of all orders and stops tried one by one', () => {
    const weights = [
      [fault('pump-worn'), 0.2],
      [fault('precharge-low'), 0.35],
      [fault('suction-air-leak'), 0.15],
      [fault('valve-part-closed'), 0.3],
    ] as const;
    const steps: Step[] = [
      'change-pump',
      'set-precharge',
      'mend-suction-air',
      'open-valves',
      'change-vessel',
    ].map((job) => ({ job }));
    const cost = (order: readonly Step[]) =>
      weights.reduce(
        (sum, [f, p]) => sum + p * expectedCost(ruleSet, order, [f], 'householder'),
        0,
      );
    const tried = permutations(steps).flatMap((order) =>
      order.map((_, n) => cost(order.slice(0, n + 1))),
    );
    const best = orderFor(ruleSet, steps, weights, 'householder');
    expect(cost(best)).toBeCloseTo(Math.min(...tried), 9);
  });
});
