import { describe, expect, it } from 'vitest';
import { gaugeBeforeValve } from '../../shared/case/places.ts';
import { isPlantFor } from '../../shared/diagnosis/condition.ts';
import { fernhollow, readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { ruleSet } from './rules.ts';

/**
 * Hydrostatics: behind a shut valve a gauge shows the water of its own side. A leak in the house goes on lowering a gauge
 * past the valve, which would read as water passing back through the pump; and no pump is seen there at all.
 */
describe('what is read with a valve shut needs a gauge on the pump’s side of it', () => {
  const isAsked = (question: string, plant: Plant) =>
    ruleSet.questions[question]?.when.every((one) => isPlantFor(one, plant));
  const withBoth = (...ids: string[]): Plant => {
    const { plant } = readyMade.find(({ id }) => id === 'two-stages') as { plant: Plant };
    const parts = plant.line.filter(({ kind }) => kind !== 'valve' && kind !== 'gauge');
    const made = ids.map((id) =>
      id.startsWith('G') ? ({ id, kind: 'gauge' } as const) : ({ id, kind: 'valve' } as const),
    );
    return { ...plant, line: [...parts.slice(0, 4), ...made, ...parts.slice(4)] };
  };

  it.each([
    ['valve before the only gauge', withBoth('v1', 'G1'), null],
    ['no valve', withBoth('G1'), null],
    ['no gauge', withBoth('v1'), null],
    ['gauge before the valve', withBoth('G1', 'v1'), { gauge: 'G1', valve: 'v1' }],
    ['a second valve past the gauge', withBoth('v1', 'G1', 'v2'), { gauge: 'G1', valve: 'v2' }],
    ['the Fernhollow guesthouse', fernhollow, { gauge: 'G1', valve: 'v2' }],
  ])('%s', (_, plant, expected) => {
    expect(gaugeBeforeValve(plant)).toEqual(expected);
    for (const question of ['shut-off', 'pressure-hold-isolated']) {
      expect(isAsked(question, plant)).toBe(expected !== null);
    }
  });
});
