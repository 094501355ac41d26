import { describe, expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { chanceOf, judgeCase } from './rules.ts';

/**
 * Half a litre in five minutes at a tap fully open. Common practice: something is all but closed, or the pump gives
 * nothing and the pipes run empty; the gauges say which.
 */
const plant = (id: string) => readyMade.find((made) => made.id === id)?.plant;
const trickle = { question: 'flow', value: { litres: 0.5, seconds: 300 } };
const read = (taps: unknown, G1: number, G2: number, G3: number) => ({
  question: 'readings',
  value: { taps, bar: { G1, G2, G3 } },
});
const told = (id: string, complaint: string, ...readings: object[]) =>
  judgeCase(plant(id), [
    { question: 'danger', value: [] },
    { question: 'complaint', value: [complaint] },
    ...(readings as { question: string; value: unknown }[]),
    trickle,
  ]);
const sum = (result: ReturnType<typeof told>, causes: readonly string[]) =>
  causes.reduce((total, cause) => total + chanceOf(result, cause), 0);

const GIVES_NOTHING = [
  ...['power-off', 'pump-tripped', 'pump-seized', 'pump-unprimed'],
  ...['control-failed', 'tank-low'],
];

describe('a trickle', () => {
  it.each(readyMade.map(({ id }) => id))('on %s without a reading is something listed', (id) => {
    expect(chanceOf(told(id, 'weak'), 'not-listed')).toBeLessThan(0.2);
    const none = told(id, 'no-water');
    expect(chanceOf(none, 'not-listed')).toBeLessThan(0.2);
    // without a pump nothing can stop giving
    if (id !== 'gravity') expect(sum(none, GIVES_NOTHING)).toBeGreaterThan(0.4);
  });

  const closed = read('closed', 3.3, 3.3, 3.3);
  const open = (G1: number, G2: number, G3: number) => read({ open: 1 }, G1, G2, G3);

  it('with the pressure gone behind one stage is that stage', () => {
    const first = told('two-stages', 'weak', closed, open(3.3, 0, 0));
    expect(chanceOf(first, 'sediment-blocked')).toBeGreaterThan(0.7);
    const second = told('two-stages', 'weak', closed, open(3.3, 3.3, 0));
    expect(second.causes[0]?.id).toBe('carbon-blocked');
    expect(chanceOf(second, 'carbon-blocked')).toBeGreaterThan(0.5);
  });

  it('with all gauges at zero is a pump that gives nothing, or an empty tank', () => {
    const dead = told('two-stages', 'no-water', open(0, 0, 0));
    expect(sum(dead, GIVES_NOTHING)).toBeGreaterThan(0.9);
    expect(chanceOf(dead, 'not-listed')).toBeLessThan(0.02);
  });

  it('with all gauges as at rest is closed behind the last of them', () => {
    const behind = ['outlet-restricted', 'house-pipe-restricted', 'pipe-frozen'];
    for (const complaint of ['weak', 'no-water']) {
      const result = told('two-stages', complaint, closed, open(3.3, 3.3, 3.3));
      expect(sum(result, behind)).toBeGreaterThan(0.5);
      expect(behind).toContain(result.causes[0]?.id);
      expect(chanceOf(result, 'not-listed')).toBeLessThan(0.02);
    }
  });

  it('behind an isolating valve with the stage before it at rest is the valve', () => {
    const told = judgeCase(
      {
        name: 'valve',
        line: [
          { id: 'tank', kind: 'tank' },
          { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
          { id: 'vessel', kind: 'vessel' },
          { id: 'G1', kind: 'gauge' },
          { id: 'v1', kind: 'valve' },
          { id: 'G2', kind: 'gauge' },
          { id: 'house', kind: 'house' },
        ],
      },
      [
        { question: 'complaint', value: ['weak'] },
        { question: 'readings', value: { taps: 'closed', bar: { G1: 3.3, G2: 3.3 } } },
        { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 3.3, G2: 0 } } },
        trickle,
      ],
    );
    expect(told.causes[0]?.id).toBe('valve-part-closed');
  });
});
