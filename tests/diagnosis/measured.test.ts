import { describe, expect, it } from 'vitest';
import {
  closedCycleChance,
  flowSeen,
  flowUnlisted,
  holdChance,
  housingChance,
  prechargeChance,
  shutOffChance,
  tankChance,
} from '../../shared/diagnosis/measured.ts';
import { below, density } from '../../shared/diagnosis/normal.ts';
import { cycleChance } from '../../shared/diagnosis/running.ts';
import { along, curvesWith, effect, integral, LPM, sourceWith } from './made-line.ts';

describe('head at no flow', () => {
  it('is shut-off, known as well as the pump and the gauge are; a surprise now and then', () => {
    const source = sourceWith({ raw: along(() => 4), sd: along(() => 0.3) });
    expect(shutOffChance(3.8, 0.4, source)).toBeCloseTo(density(3.8, 4, 0.5) + 0.01, 12);
  });
});

describe('pressure lost with taps shut', () => {
  const tight = (lost: number) => density(Math.log(lost + 0.03), Math.log(0.05), 0.45) + 0.01;
  const losing = (lost: number, expected: number) =>
    density(Math.log(lost + 0.03), Math.log(expected + 0.05), 0.7) + 0.01;
  const leaky = sourceWith({ leakLpm: 0.4, backLeakLpm: 0.2 });

  it('of a tight line is next to nothing', () => {
    expect(holdChance(0.02, 10, false, sourceWith())).toBeCloseTo(tight(0.02), 12);
    expect(holdChance(1, 10, false, sourceWith())).toBeCloseTo(tight(1), 12);
  });

  it('is what leaks, over what the vessel gives between stop and start', () => {
    // 0.6 L/min for 10 min out of a vessel that gives 8 L over 1.5 bar
    expect(holdChance(0.9, 10, false, leaky)).toBeCloseTo(losing(0.9, (6 * 1.5) / 8), 12);
    // the valve to the house shut: only what passes back
    expect(holdChance(0.9, 10, true, leaky)).toBeCloseTo(losing(0.9, (2 * 1.5) / 8), 12);
    expect(holdChance(0.9, 10, true, sourceWith({ leakLpm: 0.4 }))).toBeCloseTo(tight(0.9), 12);
  });

  it('is never more than there is', () => {
    expect(holdChance(3, 600, false, leaky)).toBeCloseTo(losing(3, 3.5), 12);
    expect(holdChance(0.4, 600, false, { ...leaky, highBar: 0.2 })).toBeCloseTo(
      losing(0.4, 0.5),
      12,
    );
  });

  it('without a switch falls a bar for what little the line holds', () => {
    const held = { ...leaky, control: 'variable-speed', drawdownL: 2, highBar: 9 } as const;
    expect(holdChance(1, 2, false, held)).toBeCloseTo(losing(1, 0.6), 12);
    expect(holdChance(1, 2, false, { ...held, drawdownL: 0.1 })).toBeCloseTo(losing(1, 4), 12);
    // a switch without any span between start and stop
    const narrow = { ...leaky, lowBar: 3.4, drawdownL: 2 };
    expect(holdChance(1, 2, false, narrow)).toBeCloseTo(losing(1, 1.2 * 0.15), 12);
  });
});

describe('gas pressure in the vessel', () => {
  const source = sourceWith({ prechargeBar: 1.8, settingSd: 0.1 });
  const charged = effect({ change: { prechargeBar: -0.8 } });
  // sound lies between 0.5 bar under cut-in (2 bar) and cut-in
  const sound = (bar: number) => below((bar - 1.5) / 0.1) - below((bar - 2) / 0.1);

  it('water at its valve is a vessel full of water, and such a vessel shows little else', () => {
    const full = sourceWith({ waterlogged: true });
    expect(prechargeChance('water-at-valve', false, full, [])).toBe(0.9);
    expect(prechargeChance('water-at-valve', false, source, [])).toBe(0.01);
    // no charge stands behind torn rubber: one in ten shows nothing, hardly any a pressure
    expect(prechargeChance({ bar: 0 }, false, full, [])).toBeCloseTo(
      0.1 * 2 * density(0, 0, 0.2) + 0.01,
      12,
    );
    expect(prechargeChance({ bar: 1.8 }, false, full, [])).toBeCloseTo(0.01, 12);
  });

  it('of a sound one is its own and within bounds; of a faulty one its own and out of them', () => {
    for (const bar of [0.9, 1.45, 1.8, 2.05]) {
      const own = density(bar, 1.8, 0.2);
      expect(prechargeChance({ bar }, false, source, [])).toBeCloseTo(sound(bar) * own + 0.01, 12);
      expect(prechargeChance({ bar }, false, source, [effect(), charged])).toBeCloseTo(
        (1 - sound(bar)) * own + 0.01,
        12,
      );
    }
  });

  it('that is gone shows nothing, which speaks for lost air ten times as much as for torn rubber', () => {
    const gone = sourceWith({ prechargeBar: 0, settingSd: 0.1 });
    const lost = prechargeChance({ bar: 0 }, false, gone, [charged]);
    expect(lost).toBeCloseTo(2 * density(0, 0, 0.2) + 0.01, 9);
    const torn = prechargeChance({ bar: 0 }, false, sourceWith({ waterlogged: true }), []);
    expect(lost / torn).toBeGreaterThan(9);
  });

  it('where it was only assumed is known less well', () => {
    const chance = prechargeChance({ bar: 1.7 }, true, source, []);
    expect(chance).toBeCloseTo(sound(1.7) * density(1.7, 1.8, 0.35) + 0.01, 12);
  });

  it('without a switch has no bounds; without a vessel none at all', () => {
    const held = sourceWith({ control: 'variable-speed', prechargeBar: null });
    expect(prechargeChance({ bar: 0.2 }, false, held, [charged])).toBeCloseTo(
      2 * density(0.2, 0, 0.2) + 0.01,
      12,
    );
  });
});

describe('a cycle timed with all taps shut', () => {
  const cycle = { onS: 60, offS: 800, taps: 'closed' as const };
  it('goes by what leaks, either way', () => {
    const leaky = sourceWith({ leakLpm: 0.4, backLeakLpm: 0.2 });
    expect(closedCycleChance(cycle, leaky)).toBeCloseTo(cycleChance(cycle, leaky, 0.6, 1), 12);
    expect(closedCycleChance(cycle, leaky)).toBeGreaterThan(0.1);
  });
  it('is a surprise where nothing leaks, or the pump gives nothing', () => {
    expect(closedCycleChance(cycle, sourceWith())).toBeCloseTo(0.0004, 12);
    expect(closedCycleChance(cycle, sourceWith({ leakLpm: 0.6, gives: 'hums' }))).toBeCloseTo(
      0.0004,
      12,
    );
  });
});

describe('flow tried with cartridges out', () => {
  it.each([
    [5, 5.2, 10],
    [5, 6.25, 10],
    [5, 8, 10],
    [5, 12, 10],
  ])('%d, then %d of %d L/min: called better, restored or the same', (before, after, clean) => {
    const better = below(Math.log(after / before / 1.25) / 0.15);
    const restored = below(Math.log(after / clean / 0.8) / 0.15);
    const chance = (result: string) => housingChance(result, before, after, clean);
    expect(chance('restored')).toBeCloseTo(0.02 + 0.94 * better * restored, 12);
    expect(chance('better')).toBeCloseTo(0.02 + 0.94 * better * (1 - restored), 12);
    expect(chance('same')).toBeCloseTo(0.02 + 0.94 * (1 - better), 12);
    expect(chance('restored') + chance('better') + chance('same')).toBeCloseTo(1, 12);
    expect(chance('anything else')).toBe(0.02);
  });
});

describe('the tank', () => {
  const low = effect({ change: { levelM: 0.1 } });
  const empty = effect({ change: { levelM: -0.2 } });
  const words = ['full', 'half', 'low', 'below-outlet'];

  it.each([
    ['enough', [effect()]],
    ['low', [effect(), low]],
    ['under the outlet', [empty]],
  ])('%s: its words share the whole chance', (_, effects) => {
    expect(words.reduce((sum, word) => sum + tankChance(word, effects), 0)).toBeCloseTo(1, 12);
    expect(tankChance('anything else', effects)).toBe(0.01);
  });

  it('in words is low where the fault is a low tank, and lower where it is an empty one', () => {
    const told = (word: string) => [[], [low], [empty]].map((effects) => tankChance(word, effects));
    const [enough = 0, isLow = 0, isEmpty = 0] = told('below-outlet');
    expect(enough).toBeLessThan(isLow);
    expect(isLow).toBeLessThan(isEmpty);
    expect(told('half')[0]).toBeGreaterThan(told('half')[1] ?? 1);
    expect(told('low')[1]).toBeGreaterThan(told('low')[2] ?? 1);
    // a level of exactly the outlet's height counts as empty
    expect(tankChance('low', [effect({ change: { levelM: 0 } })])).toBe(tankChance('low', [empty]));
  });

  it('in metres is low under 0.2 m over the outlet, and nothing else is', () => {
    expect([0.19, 0.2].map((m) => tankChance({ m }, [low]))).toEqual([1, 0.02]);
    expect([0.19, 0.2].map((m) => tankChance({ m }, [effect()]))).toEqual([0.01, 1]);
  });
});

describe('a flow by bucket and watch', () => {
  it('is likeliest at the flow of the grid it lies at, its error a share of it and a part of the step', () => {
    const seen = flowSeen(curvesWith(), 4, 0.07);
    const sd = Math.hypot(0.07, Math.LN2 / 3.5);
    LPM.slice(1).forEach((q, i) => {
      const chance = density(Math.log(4.05), Math.log(q + 0.05), sd) + 0.002;
      expect(seen[i + 1]).toBeCloseTo(chance, 12);
    });
    expect(Math.max(...seen)).toBe(seen[3]);
  });

  const spread = (j: number) => (x: number) =>
    (flowSeen(curvesWith(), Math.exp(x) - 0.05, 0.07)[j] ?? 0) - 0.002;

  it('spread over ln(flow) sums to one but for the surprise', () => {
    expect(integral(spread(3), -2, 5)).toBeCloseTo(1, 3);
  });

  it('where nothing flows is nothing, or as often what runs out of the pipes: a trickle, never a stream', () => {
    // there is no flow under nothing, so what lies below counts as nothing
    expect(integral(spread(0), Math.log(0.05), 5)).toBeCloseTo(0.75, 3);
    const seen = (lpm: number) => flowSeen(curvesWith(), lpm, 0.07)[0] ?? 0;
    expect(seen(0)).toBeGreaterThan(5 * seen(0.1));
    expect(seen(0.1)).toBeGreaterThan(30 * seen(2));
    expect(seen(4)).toBeLessThan(0.0021);
  });

  it('under something not listed is no likelier than any other flow of the grid', () => {
    const seen = flowSeen(curvesWith(), 4, 0.07);
    const [none = 0, ...running] = seen;
    const mean = running.reduce((sum, chance) => sum + chance, 0) / running.length;
    expect(flowUnlisted(seen)).toBeCloseTo(0.25 * none + 0.75 * mean, 12);
    expect(flowUnlisted(Float64Array.from([2, 0, 0]))).toBe(0.5);
    expect(flowUnlisted(Float64Array.from([0.4]))).toBeCloseTo(0.1, 12);
  });
});
