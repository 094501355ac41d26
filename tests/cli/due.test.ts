import { describe, expect, it } from 'vitest';
import { seeded } from '../seeded.ts';
import { flowController, usual } from '../upkeep/trials.ts';
import { virtualRecord } from '../upkeep/virtual.ts';
import { tried } from './world.ts';

const north = virtualRecord(seeded(21), { ...usual, control: flowController }).record;
const south = { ...north, plant: { ...north.plant, name: 'South farm' } };
const files = { 'north.json': JSON.stringify(north), 'south.json': JSON.stringify(south) };

describe('gaugewalk due', () => {
  it('prints dates, reasons, what to order and what each way of changing costs; one `first` for each part', async () => {
    const { code, out } = await tried(['due', 'north.json'], { files });
    expect(code).toBe(0);
    expect(out).toMatch(/sed-1 +resistance/);
    expect(out).toMatch(/\d{4}-\d\d-\d\d – \d{4}-\d\d-\d\d/);
    expect(out).toContain('Order in time');
    expect(out).toContain('by this forecast');
    const json = JSON.parse((await tried(['due', 'north.json', '--json'], { files })).out) as {
      due: { part: string; first: boolean }[];
    };
    const parts = new Set(json.due.map(({ part }) => part));
    expect(json.due.filter(({ first }) => first)).toHaveLength(parts.size);
  });

  it('tells where the next gauge tells most, its range, and what one moved along ports would tell', async () => {
    const { out } = await tried(['due', 'north.json', '--json', '--next-gauge'], { files });
    const { nextGauge } = JSON.parse(out) as {
      nextGauge: {
        places: { after: string; gainBits: number; rangeBar: number }[];
        movedBits: number;
      };
    };
    expect(nextGauge.places.length).toBeGreaterThan(0);
    const gains = nextGauge.places.map(({ gainBits }) => gainBits);
    expect(gains).toEqual(gains.toSorted((a, b) => b - a));
    expect(nextGauge.movedBits).toBeGreaterThanOrEqual((gains[0] ?? 0) - 0.02);
  });

  it.each([
    ['a plant by itself', { name: 'x', line: [] }, /a plant by itself; write it as/],
    ['no plant', { history: [], done: [] }, /plant: is missing/],
    ['words for a list', { plant: {}, history: 'none' }, /history: must be a list/],
  ])('says in plain words what a record lacks: %s', async (_, record, said) => {
    for (const command of ['due', 'round']) {
      const wrong = { 'wrong.json': JSON.stringify(record) };
      const { code, err } = await tried([command, 'wrong.json'], { files: wrong });
      expect(code).toBe(2);
      expect(err).toMatch(said);
      expect(err).not.toMatch(/Invalid input|expected|undefined/);
    }
  });

  it('refuses two forms at once, and a file that is not there, in one line', async () => {
    const twice = await tried(['due', 'north.json', '--json', '--ics'], { files });
    expect([twice.code, twice.err.trim().split('\n').length]).toEqual([2, 1]);
    const gone = await tried(['due', 'gone.json'], { files });
    expect(gone.code).toBe(2);
    expect(gone.err).toContain('gone.json');
  });
});

describe('gaugewalk buy', () => {
  it('adds up a round of plants: cartridges for each, one wrench for all, late ones said to be late', async () => {
    const { out } = await tried(['buy', 'north.json', 'south.json', '--until', '2029-01-01'], {
      files,
    });
    expect(out).toMatch(/2 × sediment cartridge/);
    expect(out).toMatch(/1 × housing wrench/);
    expect(out).toMatch(/now, for it was to be ordered by \d{4}/);
  });
});
