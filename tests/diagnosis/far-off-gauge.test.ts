import { describe, expect, it } from 'vitest';
import { chanceOf, judgeCase } from './rules.ts';

/** Two gauges about one sediment stage, of a small dial, at a switch plant. */
const plant = {
  name: 'Two dials',
  line: [
    { id: 'tank', kind: 'tank', levelM: 1.2 },
    { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 } },
    { id: 'vessel', kind: 'vessel' },
    { id: 'G1', kind: 'gauge', rangeBar: 6 },
    { id: 'sed', kind: 'filter', medium: 'sediment' },
    { id: 'G2', kind: 'gauge', rangeBar: 6 },
    { id: 'house', kind: 'house' },
  ],
};

const told = (complaint: string, closed: [number, number], open: [number, number]) =>
  judgeCase(plant, [
    { question: 'danger', value: [] },
    { question: 'complaint', value: [complaint] },
    { question: 'onset', value: 'gradual' },
    { question: 'readings', value: { taps: 'closed', bar: { G1: closed[0], G2: closed[1] } } },
    { question: 'readings', value: { taps: { open: 1 }, bar: { G1: open[0], G2: open[1] } } },
  ]);

// A difference with nothing flowing is a gauge, a shut valve or a trapped pressure, never a blocked filter (common practice).
describe('a gauge far off at rest and as far off with a tap open', () => {
  it.each<[string, [number, number], [number, number]]>([
    ['by 1 bar', [3.2, 2.2], [2.8, 1.8]],
    ['by 2.2 bar', [3.2, 1], [2.8, 0.6]],
    ['stands at zero', [3.2, 0], [2.8, 0]],
  ])('%s is doubted before the filter beside it', (_, closed, open) => {
    for (const complaint of ['weak', 'routine']) {
      const result = told(complaint, closed, open);
      expect(result.causes[0]?.id, complaint).toBe('gauge-faulty');
      expect(result.causes[0]?.parts?.[0]).toMatchObject({ id: 'G2' });
    }
  });

  it('a drop with water running alone is the filter', () => {
    const result = told('weak', [3.2, 3.2], [2.8, 0.6]);
    expect(result.causes[0]?.id).toBe('sediment-blocked');
    expect(chanceOf(result, 'gauge-faulty')).toBeLessThan(0.05);
  });
});
