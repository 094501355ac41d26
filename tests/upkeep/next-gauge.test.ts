import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { roundPurchases } from '../../shared/upkeep/buying.ts';
import { nextGauge } from '../../shared/upkeep/next-gauge.ts';
import { ruleSet } from './tables.ts';

const plant = parsePlant(fernhollow);
const withOnly = (...ids: string[]) => ({
  ...plant,
  line: plant.line.filter((part) => part.kind !== 'gauge' || ids.includes(part.id)),
});
const asked = (...ids: string[]) => nextGauge(withOnly(...ids), ruleSet, '2026-11-25');

describe('the next gauge', () => {
  it('goes between the two sediment stages that share a stretch', () => {
    const { places } = asked('G1', 'G2', 'G3');
    expect(places[0]?.after).toBe('sed-1');
  });

  it('tells more where fewer are: what is known rises with every gauge', () => {
    const known = [[], ['G1'], ['G1', 'G3'], ['G1', 'G2', 'G3']].map(
      (ids) => asked(...ids).nowBits,
    );
    expect(known).toEqual(known.toSorted((a, b) => a - b));
    expect(known[0]).toBe(0);
  });

  it('moved along all ports tells no less than the best single place', () => {
    for (const ids of [[], ['G1'], ['G1', 'G3']]) {
      const { places, movedBits } = asked(...ids);
      expect(movedBits).toBeGreaterThanOrEqual((places[0]?.gainBits ?? 0) - 0.02);
    }
  });

  it('has a scale whose lower two thirds hold the working pressure', () => {
    for (const { rangeBar } of asked('G1').places) expect([4, 6, 10]).toContain(rangeBar);
  });

  it('is never put where a neighbour shows the same', () => {
    const after = asked('G1', 'G2', 'G3').places.map((place) => place.after);
    expect(after).not.toContain('sed-2');
    expect(after).not.toContain('vessel');
    expect(after).not.toContain('house');
  });
});

describe('buying for a round', () => {
  it('counts what is used up at every plant, what is carried once, by the earliest day', () => {
    const one = (by: string, items: string[]) => ({ by, part: 'p', job: 'j', items, money: 1 });
    const wanted = roundPurchases(
      [
        { name: 'North', buy: [one('2027-01-10', ['o-ring', 'uv-lamp', 'wrench'])] },
        {
          name: 'South',
          buy: [one('2027-01-05', ['o-ring', 'wrench']), one('2027-06-01', ['o-ring'])],
        },
      ],
      '2027-02-01',
      ['wrench'],
    );
    expect(wanted).toEqual([
      { item: 'o-ring', count: 2, by: '2027-01-05', plants: ['South', 'North'] },
      { item: 'wrench', count: 1, by: '2027-01-05', plants: ['South', 'North'] },
      { item: 'uv-lamp', count: 1, by: '2027-01-10', plants: ['North'] },
    ]);
  });
});
