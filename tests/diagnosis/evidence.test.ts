import { describe, expect, it } from 'vitest';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import { type Candidate, evidenceOf, priorOf } from '../../shared/diagnosis/evidence.ts';
import type { Measured } from '../../shared/diagnosis/scenario.ts';
import { blockOf, setIndex } from '../../shared/diagnosis/sets.ts';
import type { Suspect } from '../../shared/diagnosis/suspects.ts';
import { effect } from './made-line.ts';

/**
 * The evidence for each set of causes is the sum over places and severities of prior odds times likelihood; here summed
 * plainly over a made likelihood.
 */
const block = blockOf(['filter', 'pump', 'gauge']);
const [filter, pump, gauge] = [0, 1, 2];

/** What stands in for a measurement: every severity has its own factor, two together some more. */
const factors = new Map<number, number>();
const severity = (weight: number, factor: number, differs: Partial<Effect> = {}) => {
  const made = effect({ weight, ...differs });
  factors.set(made.id, factor);
  return made;
};
const likelihood = (effects: readonly Effect[], v: number) =>
  effects.reduce((so, { id }) => so * ((factors.get(id) ?? 0) + 0.1 * v), 0.5 + v) +
  (effects.length === 2 ? 0.03 : 0);
const hidden = new Set<number>();
const variants = [null, 'flow'];
const buffer = new Float64Array(2);
const measured: Measured = {
  variants,
  // the array is used again by the next call
  likelihoods: (effects) => {
    buffer.forEach((_, v) => {
      buffer[v] = likelihood(effects, v);
    });
    return buffer;
  },
  shows: ({ id }) => !hidden.has(id),
  unlisted: Float64Array.from([0.2, 0.4]),
  open: new Map(),
};
/** As it stands in the sum: what shows in nothing leaves the other's likelihood as it is. */
const seen = (effects: readonly Effect[], v: number) =>
  likelihood(effects.filter(measured.shows), v);

const candidate = (
  cause: number,
  odds: number,
  effects: readonly Effect[],
  coarse = effects,
  rough = coarse,
): Candidate => ({
  ...{ suspect: { cause: block.causes[cause], part: 'x', odds } as Suspect, cause },
  ...{ effects, coarse, rough },
});
const alone = ({ suspect, effects }: Candidate, v: number) =>
  suspect.odds * effects.reduce((sum, e) => sum + e.weight * seen([e], v), 0);
const together = (a: Candidate, b: Candidate, v: number, of: 'coarse' | 'rough' = 'coarse') =>
  a.suspect.odds *
  b.suspect.odds *
  a[of].reduce(
    (sum, one) =>
      sum + b[of].reduce((s, two) => s + one.weight * two.weight * seen([one, two], v), 0),
    0,
  );

const first = candidate(filter, 0.3, [severity(0.5, 0.9), severity(0.3, 2), severity(0.2, 0.1)]);
const second = candidate(filter, 0.2, [severity(0.6, 0.4), severity(0.4, 1.5)]);
const worn = candidate(pump, 0.1, [severity(0.7, 0.8), severity(0.3, 3)]);
const faulty = candidate(gauge, 0.05, [severity(1, 0.6)]);
const candidates = [first, second, worn, faulty];

describe.each([
  ['where every severity shows', new Set<number>()],
  ['where one severity shows in nothing', new Set([first.effects[1]?.id ?? -1])],
  ['where some faults show in nothing at all', new Set(worn.effects.map(({ id }) => id))],
])('evidence for a set of causes, %s', (_, nothing) => {
  const of = () => {
    hidden.clear();
    for (const id of nothing) hidden.add(id);
    return evidenceOf(candidates, block, measured);
  };

  it('is the sum over its places and severities, for each answer left out', () => {
    const { weight, without, unlisted } = of();
    for (const [v, ours] of [weight, without.get('flow')?.weight].entries()) {
      const expected = new Float64Array(block.sets.length);
      const add = (set: number, value: number) => {
        expected[set] = (expected[set] ?? 0) + value;
      };
      add(0, likelihood([], v));
      candidates.forEach((a, i) => {
        add(setIndex(block, a.cause), alone(a, v));
        // two places of one cause are a set of that one cause
        for (const b of candidates.slice(i + 1))
          add(setIndex(block, a.cause, b.cause), together(a, b, v));
      });
      expect([...(ours ?? [])]).toEqual([...expected].map((value) => expect.closeTo(value, 12)));
    }
    expect(unlisted).toBe(0.2);
    expect(without.get('flow')?.unlisted).toBe(0.4);
    expect([...without.keys()]).toEqual(['flow']);
  });

  it('tells what each place brings to the sets it is part of', () => {
    const { byCandidate } = of();
    candidates.forEach((own, i) => {
      const expected = new Float64Array(block.sets.length);
      expected[setIndex(block, own.cause)] = alone(own, 0);
      candidates.forEach((other, k) => {
        if (k === i) return;
        const set = setIndex(block, own.cause, other.cause);
        expected[set] = (expected[set] ?? 0) + together(own, other, 0);
      });
      expect([...(byCandidate[i] ?? [])]).toEqual(
        [...expected].map((value) => expect.closeTo(value, 12)),
      );
    });
  });
});

describe('a pump that gives nothing', () => {
  const dead = candidate(pump, 0.1, [severity(1, 0.7, { change: { pumpGives: 'silent' } })]);
  const beside = (differs: Partial<Effect>) => {
    hidden.clear();
    const other = candidate(filter, 0.3, [severity(1, 0.25, differs)]);
    return [dead, other]
      .flatMap((a) => [dead, other].map((b) => [a, b]))
      .filter(([a, b]) => a !== b)
      .map((pair) => {
        const { weight } = evidenceOf(pair as Candidate[], block, measured);
        return (weight[setIndex(block, filter, pump)] ?? 0) / (0.1 * 0.3);
      });
  };
  const own = likelihood(dead.effects, 0);
  const both = 0.5 * 0.7 * 0.25 + 0.03;

  it('hides a restriction and whatever else only shows in running water', () => {
    for (const differs of [
      { partLoss: new Float64Array(1) },
      { pipeTimes: 3 },
      { change: { headTimes: 0.6 } },
      { change: { cutInBar: 0.5 } },
    ])
      expect(beside(differs)).toEqual([expect.closeTo(own, 12), expect.closeTo(own, 12)]);
  });

  it.each<Partial<Effect>>([
    { gauge: 'G1' },
    { change: { levelM: 0.1 } },
    { change: { leakLpm: 1 } },
    { change: { backLeakLpm: 1 } },
    { change: { prechargeBar: -1 } },
    { change: { gasTimes: 0.3 } },
    { change: { waterlogged: true } },
    { change: { pumpGives: 'hums' } },
  ])('does not hide what also shows at rest: %j', (differs) => {
    expect(beside(differs)).toEqual([expect.closeTo(both, 12), expect.closeTo(both, 12)]);
  });
});

describe('a pair that can hardly matter', () => {
  it('is looked at roughly, unless its right severity could explain much more', () => {
    hidden.clear();
    const pair = (odds: number, roughFactor: number, fine: number) => {
      const coarse = [severity(0.5, 0.2), severity(0.5, 0.4)];
      const a = candidate(filter, odds, [severity(1, fine)], coarse, [severity(1, roughFactor)]);
      const b = candidate(pump, 0.5, [severity(1, 1)]);
      const { weight } = evidenceOf([a, b], block, measured);
      const ours = weight[setIndex(block, filter, pump)] ?? 0;
      const close = (of: 'coarse' | 'rough') => Math.abs(ours / together(a, b, 0, of) - 1) < 1e-9;
      return close('coarse') ? 'closely' : close('rough') ? 'roughly' : 'otherwise';
    };
    // singles weigh about 0.5 (nothing) + 0.25 (b alone); a pair's share of it counts from 1e-5
    expect(pair(1e-2, 1, 1)).toBe('closely');
    expect(pair(1e-6, 1, 1)).toBe('roughly');
    const bound = (1e-5 * 0.75) / (0.5 * (0.5 + 0.03));
    expect(pair(bound * 1.01, 1, 1)).toBe('closely');
    expect(pair(bound * 0.99, 1, 1)).toBe('roughly');
    // the fine severity explains a hundred times more than the rough one
    expect(pair(bound * 0.05, 1, 100)).toBe('closely');
    // and less is no reason to look away
    expect(pair(bound * 1.01, 1, 0.01)).toBe('closely');
  });
});

describe('odds before anything was measured', () => {
  it('are those of each place, and of each two of them together', () => {
    const suspects = candidates.map(({ suspect }) => suspect);
    const prior = [...priorOf(suspects, block)];
    const expected = new Float64Array(block.sets.length);
    expected[0] = 1;
    expected[setIndex(block, filter)] = 0.3 + 0.2 + 0.3 * 0.2;
    expected[setIndex(block, pump)] = 0.1;
    expected[setIndex(block, gauge)] = 0.05;
    expected[setIndex(block, filter, pump)] = (0.3 + 0.2) * 0.1;
    expected[setIndex(block, filter, gauge)] = (0.3 + 0.2) * 0.05;
    expected[setIndex(block, pump, gauge)] = 0.1 * 0.05;
    expect(prior).toEqual([...expected].map((value) => expect.closeTo(value, 12)));
  });
});
