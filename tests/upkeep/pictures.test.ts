import { describe, expect, it } from 'vitest';
import type { Outlook } from '../../shared/upkeep/due.ts';
import { pressurePicture } from '../../shared/upkeep/pictures/pressure.ts';
import { pumpPicture } from '../../shared/upkeep/pictures/pump.ts';
import { resistancePicture } from '../../shared/upkeep/pictures/resistance.ts';
import { seeded } from '../seeded.ts';
import { english, outlook, rules, siUnits } from './tables.ts';
import { flowController, usual } from './trials.ts';
import { plantWith, virtualRecord } from './virtual.ts';

const { record } = virtualRecord(seeded(5), { ...usual, control: flowController });
const full = outlook({ ...record, done: [{ at: '2026-02-01', job: 'change-carbon' }] });
const empty = outlook({ plant: plantWith(usual.control, 0.1, '2026-01-05') });

const pictures = (of: Outlook) => [
  resistancePicture(of, 0, english, siUnits),
  resistancePicture(of, 1, english, siUnits),
  pressurePicture(of.upkeep, rules, english, siUnits),
  pumpPicture(of, english, siUnits),
];

describe('the pictures of a record', () => {
  it('are vectors with a title and words that say the same, every number a number', () => {
    for (const picture of pictures(full)) {
      expect(picture?.svg).toMatch(/^<svg .*<\/svg>$/s);
      expect(picture?.svg).not.toMatch(/NaN|Infinity|undefined/);
      expect(picture?.svg).toContain('<title');
      expect(picture?.text).not.toMatch(/[{}]|NaN|undefined/);
      const open = picture?.svg.match(/<(svg|title|desc|defs|pattern|text)\b/g)?.length;
      const closed = picture?.svg.match(/<\/(svg|title|desc|defs|pattern|text)>/g)?.length;
      expect(closed).toBe(open);
    }
  });

  it('say the same date as the due list', () => {
    const entry = full.due.find(({ because }) => because === 'resistance');
    const text = resistancePicture(full, 0, english, siUnits)?.text;
    for (const day of [entry?.on, entry?.from, entry?.to]) expect(text).toContain(day);
  });

  it('are left out where nothing was read', () => {
    expect(pictures(empty)).toEqual([null, null, null, null]);
  });

  it('are left out where a stage was read only once, which shows no course', () => {
    const reads = record.history.map((_, i) =>
      outlook({ ...record, history: record.history.slice(0, i) }),
    );
    const pointsOf = (of: Outlook) => of.stages[0]?.series.points.length ?? 0;
    const once = reads.find((of) => pointsOf(of) === 1)!;
    const twice = reads.find((of) => pointsOf(of) === 2)!;
    expect(resistancePicture(once, 0, english, siUnits)).toBeNull();
    expect(resistancePicture(twice, 0, english, siUnits)).not.toBeNull();
  });

  it('show names from a plant file as text, never as markup', () => {
    const hostile = JSON.parse(
      JSON.stringify(record).replaceAll('Fernhollow guesthouse', '<script>x</script>'),
    ) as object;
    for (const picture of pictures(outlook(hostile))) expect(picture?.svg).not.toContain('<script');
  });
});
