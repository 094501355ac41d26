import { describe, expect, it } from 'vitest';
import { partsInPlace } from '../../shared/case/places.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();

/** A spring 24 m above the shed, no pump; invented. */
const plantWith = (inPipe: object[] = []) =>
  parsePlant({
    name: 'Fernhollow spring',
    line: [
      { id: 'tank', kind: 'tank', levelM: 1, outletHeightM: 0.1 },
      { id: 'v0', kind: 'valve' },
      ...inPipe,
      { id: 'G1', kind: 'gauge', rangeBar: 4, classPercent: 1.6, heightM: -24 },
      { id: 'sed', kind: 'filter', medium: 'sediment', heightM: -24 },
      { id: 'G2', kind: 'gauge', rangeBar: 4, classPercent: 1.6, heightM: -24 },
      { id: 'house', kind: 'house', heightM: -22 },
    ],
  });
/** Air in the pipe from the tank costs as much at 20 L/min, with the square of the flow. */
const airOf = (dropBar: number) => ({
  ...{ id: 'air', kind: 'filter', medium: 'sediment' },
  clean: { flowLpm: 20, dropBar, linearShare: 0 },
});

function shown(taps: 'closed' | { open: number }, inPipe: object[]) {
  const { points } = solveLine(lineOf(resolvePlant(plantWith(inPipe)).plant), taps);
  const bar = (id: string) => (points.find(({ after }) => after === id)?.pa ?? 0) / 1e5;
  return { taps, bar: { G1: Number(bar('G1').toFixed(2)), G2: Number(bar('G2').toFixed(2)) } };
}

const judgedWith = (inPipe: object[], more: Record<string, unknown>) => {
  const told = { danger: [], complaint: ['weak', 'pulsing'], onset: 'after-work', ...more };
  const answers = [
    ...Object.entries(told).map(([question, value]: [string, unknown]) => ({ question, value })),
    { question: 'readings', value: shown('closed', inPipe) },
    { question: 'readings', value: shown({ open: 1 }, inPipe) },
  ];
  const { causes } = diagnose({ plant: plantWith(), answers }, rules, words.en!, '2026-11-25');
  return causes;
};

describe('without a pump', () => {
  it('air or ice may sit in the pipe from the tank too', () => {
    expect(partsInPlace('line', plantWith())).toEqual(['tank', 'house']);
    const pumped = parsePlant({
      name: 'pumped',
      line: [
        { id: 'tank', kind: 'tank' },
        { id: 'p', kind: 'pump' },
        { id: 'h', kind: 'house' },
      ],
    });
    expect(partsInPlace('line', pumped)).toEqual(['h']);
  });

  it.each([2, 4, 6])(
    'air there that costs %d bar at 20 L/min leads once the valves were seen open',
    (bar) => {
      const [first] = judgedWith([airOf(bar)], {
        ...{ 'recent-work': ['tank'], look: 'cloudy-clears', 'air-seen': 'spurts' },
        'valves-look': 'all-open',
      });
      expect(first?.id).toBe('air-trapped');
      expect(first?.probability).toBeGreaterThan(0.8);
      expect(first?.parts?.[0]?.id).toBe('tank');
      expect(first?.parts?.[0]?.probability).toBeGreaterThan(0.9);
    },
  );

  it('milky water beside spurting taps makes air no less likely than spurting taps alone', () => {
    const airWith = (more: Record<string, unknown>) =>
      judgedWith([airOf(6)], { 'air-seen': 'spurts', ...more }).find(
        ({ id }) => id === 'air-trapped',
      )?.probability ?? 0;
    expect(airWith({ look: 'cloudy-clears' })).toBeGreaterThanOrEqual(airWith({}) - 0.005);
  });
});
