import { describe, expect, it } from 'vitest';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { fernhollow, readyMade } from '../../shared/plant/ready-made.ts';
import { type Part, type Plant, parsePlant } from '../../shared/plant/schema.ts';
import { segmentsOf } from '../../shared/plant/segments.ts';
import { datesAhead, plantWarnings } from '../../shared/plant/warnings.ts';

const house: Part = { id: 'house', kind: 'house' };
const plant = (...line: Part[]): Plant => ({ name: 'x', line: [...line, house] });
const uv: Part = { id: 'uv', kind: 'uv' };
const sediment: Part = { id: 'sed', kind: 'filter', medium: 'sediment' };
const carbon: Part = { id: 'car', kind: 'filter', medium: 'carbon' };
const gauge = (id: string, rangeBar = 10): Part => ({ id, kind: 'gauge', rangeBar });

describe('segments', () => {
  it('are cut at the gauges, the source in the first', () => {
    expect(segmentsOf(fernhollow)).toEqual([
      { from: null, to: 'G1', parts: ['tank', 'suction', 'pump', 'vessel', 'v1'] },
      { from: 'G1', to: 'G2', parts: ['sed-1', 'sed-2'] },
      { from: 'G2', to: 'G3', parts: ['carbon-1'] },
      { from: 'G3', to: 'G4', parts: ['uv', 'v2'] },
      { from: 'G4', to: null, parts: ['house'] },
    ]);
  });

  it('without gauges are one', () => {
    expect(segmentsOf(plant(sediment))).toEqual([
      { from: null, to: null, parts: ['sed', 'house'] },
    ]);
  });

  it('between two gauges side by side hold nothing', () => {
    expect(segmentsOf(plant(gauge('A'), gauge('B')))[1]).toEqual({ from: 'A', to: 'B', parts: [] });
  });
});

describe('warnings', () => {
  const pumped: Part = {
    id: 'p',
    kind: 'pump',
    control: { kind: 'pressure-switch', cutOutBar: 4 },
  };
  it.each([
    ['UV before sediment', plant(uv, sediment), ['uv-before-sediment', 'uv-not-last']],
    ['UV before carbon', plant(sediment, uv, carbon), ['uv-not-last']],
    ['UV last', plant(sediment, carbon, uv), []],
    ['a switch without a vessel', plant(pumped), ['switch-without-vessel']],
    ['a switch with one', plant(pumped, { id: 'v', kind: 'vessel' }), []],
    [
      'a gauge that ends under cut-out',
      plant(pumped, { id: 'v', kind: 'vessel' }, gauge('G', 2.5)),
      ['gauge-range-low'],
    ],
    [
      'a pump that never reaches the pressure at which it is to stop',
      plant({ ...pumped, curve: [{ flowLpm: 0, headM: 30 }] }, { id: 'v', kind: 'vessel' }),
      ['pump-under-stop'],
    ],
    [
      'a pump that reaches it with the water above it',
      plant({ ...pumped, curve: [{ flowLpm: 0, headM: 39 }] }, { id: 'v', kind: 'vessel' }),
      [],
    ],
    ['a plant without a pump', plant(gauge('G', 1)), []],
  ])('%s', (_, made, ids) => {
    expect(plantWarnings(made).map((warning) => warning.id)).toEqual(ids);
  });

  it('doubt a part fitted on a day that has not come yet', () => {
    const made = plant(
      { ...carbon, fittedOn: '2026-12-24' },
      { ...uv, lampFittedOn: '2026-11-25' },
    );
    expect(datesAhead(made, '2026-11-25')).toEqual([
      { id: 'fitted-later', params: { part: 'car', day: '2026-12-24', today: '2026-11-25' } },
    ]);
  });

  it('name what they speak of', () => {
    expect(plantWarnings(plant(uv, sediment))[0]).toEqual({
      id: 'uv-before-sediment',
      params: { part: 'uv', other: 'sed' },
    });
  });
});

describe('ready-made plants', () => {
  it('are at least six, each with its own id', () => {
    expect(readyMade.length).toBeGreaterThanOrEqual(6);
    expect(new Set(readyMade.map(({ id }) => id)).size).toBe(readyMade.length);
  });

  it.each([...readyMade, { id: 'fernhollow', plant: fernhollow }])(
    '$id is read, and gives a house its water',
    ({ plant: made }) => {
      const read = parsePlant(JSON.parse(JSON.stringify(made)));
      const line = lineOf(resolvePlant(read).plant);
      const { open, flowM3s } = line.house.need;
      expect(solveLine(line, { open }).flowM3s).toBeGreaterThan(flowM3s);
    },
  );
});
