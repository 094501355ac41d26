import { describe, expect, it } from 'vitest';
import type { Facts } from '../../shared/case/facts.ts';
import {
  type GaugeError,
  levelReadings,
  median,
  offsetsOf,
} from '../../shared/diagnosis/gauge-errors.ts';

describe('gauges compared with taps shut', () => {
  const gauge = (id: string, heightM = 0): GaugeError => ({
    ...{ id, at: 0, zone: 0, rangeBar: 6, heightM, permittedBar: 0.15 },
    ...{ offsetBar: 0.06, gain: 0.01, readingBar: 0.03 },
  });
  const gauges = [gauge('a'), gauge('b', 2), gauge('c')];
  const facts = (bar: object) => ({ offsets: { taps: 'closed', bar } }) as unknown as Facts;
  const offset = (bar: object, suspected?: string) =>
    [...(offsetsOf(facts(bar), gauges, 0, suspected)?.byGauge ?? [])].map(([id, { offsetBar }]) => [
      id,
      Number(offsetBar.toFixed(6)),
    ]);

  it('the middle of an odd count, the mean of the middle two of an even one', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBe(0);
  });

  it('differ by their offsets, each told at the same height', () => {
    expect(offset({ a: 3.1, c: 2.9 })).toEqual([
      ['a', 0.1],
      ['c', -0.1],
    ]);
    // two metres of water are 0.196 bar
    expect(offset({ a: 3, b: 3 - 0.1958 })).toEqual([
      ['a', 0],
      ['b', 0],
    ]);
  });

  it('one far off is a slip and gives no offset, unless it is suspected: then it moves no mean', () => {
    expect(offset({ a: 3, b: 3 - 0.1958, c: 3.31 })).toEqual([
      ['a', 0],
      ['b', 0],
    ]);
    expect(offset({ a: 3, b: 3 - 0.1958, c: 4 }, 'c')).toEqual([
      ['a', 0],
      ['b', 0],
      ['c', 1],
    ]);
    expect(offset({ a: 3 })).toEqual([]);
    expect(offsetsOf({ offsets: null } as unknown as Facts, gauges, 0)).toBeNull();
  });

  it('know what they share to the root of their number', () => {
    expect(offsetsOf(facts({ a: 3, c: 3 }), gauges, 0)?.commonBar).toBeCloseTo(
      0.06 / Math.SQRT2,
      12,
    );
  });

  it('read with their offset taken out; without it, with its uncertainty left in', () => {
    const open = { taps: { open: 1 }, bar: { a: 2, c: 1 } } as never;
    const known = levelReadings(open, gauges, offsetsOf(facts({ a: 3.1, c: 2.9 }), gauges, 0), 0);
    expect(known.map(({ bar }) => bar)).toEqual([1.9, 1.1].map((v) => expect.closeTo(v, 9)));
    expect(known[0]?.ownBar).toBeCloseTo(Math.hypot(0.03 * Math.SQRT2, 0.01 * 1.1), 12);
    const bare = levelReadings(open, gauges, null, 0);
    expect(bare.map(({ bar }) => bar)).toEqual([2, 1]);
    expect(bare[0]?.ownBar).toBeCloseTo(Math.hypot(0.03, 0.02, 0.06), 12);
  });
});
