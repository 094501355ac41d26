import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../shared/upkeep/days.ts';
import { seeded } from '../seeded.ts';
import { outlook } from './tables.ts';
import { flowController, usual } from './trials.ts';
import { growths, virtualRecord } from './virtual.ts';

/** The same record as a plant without gauges would leave it: flows at the taps and nothing else. */
function withoutGauges(seed: number) {
  const sort = { ...usual, growth: growths.cake, control: flowController };
  const { record, truth } = virtualRecord(seeded(seed), sort);
  const plant = record.plant as { line: { id: string; kind: string }[] };
  const line = plant.line.filter(({ kind }) => kind !== 'gauge');
  const history = (record.history as { at: string; taps: unknown; flowLpm?: number }[]).flatMap(
    ({ at, taps, flowLpm }) => (flowLpm === undefined ? [] : [{ at, taps, bar: {}, flowLpm }]),
  );
  return { record: { ...record, plant: { ...plant, line }, history }, truth };
}

describe('a plant without gauges', () => {
  it('gets its date from the flows at the taps (30 records, seeds 1 to 30)', () => {
    const errors: number[] = [];
    let held = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const { record, truth } = withoutGauges(seed);
      const entry = outlook(record).due.find(({ because }) => because === 'resistance');
      if (!entry) continue;
      const day = Math.floor(truth);
      errors.push(Math.abs(dayNumber(entry.on) - day));
      if (dayNumber(entry.from) <= day && day <= dayNumber(entry.to)) held += 1;
    }
    expect(errors.length).toBeGreaterThanOrEqual(27);
    expect(errors.toSorted((a, b) => a - b)[Math.floor(errors.length / 2)]).toBeLessThan(30);
    expect(held).toBeGreaterThanOrEqual(17);
  }, 60_000);

  it('is told for every filter, for nobody can say which it is', () => {
    const { record } = withoutGauges(1);
    const { due } = outlook(record);
    const parts = due.filter(({ because }) => because === 'resistance').map(({ part }) => part);
    expect(parts.toSorted()).toEqual(['carbon-1', 'sed-1']);
  });

  it('takes a bucket and a watch as well as a reading', () => {
    const { record } = withoutGauges(2);
    const history = record.history.flatMap(({ at, taps, flowLpm }) => [
      { at, question: 'flow', value: { litres: flowLpm, seconds: 60, taps } },
    ]);
    const due = outlook({ ...record, history }).due.map(({ because }) => because);
    expect(due).toContain('resistance');
  });

  it('reads nothing of its filters from a tap that gave no water', () => {
    const { record } = withoutGauges(2);
    const dry = {
      ...{ at: record.history.at(-1)?.at, question: 'flow' },
      value: { litres: 0, seconds: 60, taps: { open: 1 } },
    };
    const withDry = outlook({ ...record, history: [...record.history, dry] });
    expect(withDry.due).toEqual(outlook(record).due);
  });
});
