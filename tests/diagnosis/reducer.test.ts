import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();

interface Differs {
  readonly setBar?: number;
  /** what the switch stands at while the gauges are read */
  readonly standsBar?: number;
  readonly sediment?: { readonly flowLpm: number; readonly dropBar: number };
}

/** A switch from 3 to 5 bar with a reducer of 3 bar between two gauges; invented. */
const plantWith = ({ setBar = 3, standsBar, sediment }: Differs = {}) =>
  parsePlant({
    name: 'Fernhollow mill',
    line: [
      { id: 'tank', kind: 'tank', levelM: 1.2 },
      {
        ...{ id: 'pump', kind: 'pump' },
        curve: [
          { flowLpm: 0, headM: 62 },
          { flowLpm: 40, headM: 45 },
          { flowLpm: 70, headM: 20 },
        ],
        control: standsBar
          ? { kind: 'variable-speed', setBar: standsBar }
          : { kind: 'pressure-switch', cutInBar: 3, cutOutBar: 5 },
      },
      { id: 'vessel', kind: 'vessel', volumeL: 50, prechargeBar: 2.8 },
      { id: 'G1', kind: 'gauge' },
      {
        ...{ id: 'sed', kind: 'filter', medium: 'sediment' },
        clean: sediment ?? { flowLpm: 20, dropBar: 0.1 },
      },
      { id: 'red', kind: 'pressure-reducer', setBar },
      { id: 'G2', kind: 'gauge', rangeBar: 6 },
      { id: 'house', kind: 'house', heightM: 2 },
    ],
  });

/** What the gauges of such a plant show by the solved line, in tenths. */
function shown(taps: 'closed' | { open: number }, differs: Differs) {
  const { points } = solveLine(lineOf(resolvePlant(plantWith(differs)).plant), taps);
  const bar = (id: string) => (points.find(({ after }) => after === id)?.pa ?? 0) / 1e5;
  return { G1: Number(bar('G1').toFixed(1)), G2: Number(bar('G2').toFixed(1)) };
}

const judgedBy = (complaint: string, ...readings: object[]) => {
  const answers = [
    ...[
      { question: 'danger', value: [] },
      { question: 'complaint', value: [complaint] },
    ],
    ...readings.map((value) => ({ question: 'readings', value })),
  ];
  return diagnose({ plant: plantWith(), answers }, rules, words.en!, '2026-11-25');
};
const chance = ({ causes }: ReturnType<typeof judgedBy>, cause: string) =>
  causes.find(({ id }) => id === cause)?.probability ?? 0;

describe('gauges before and behind a pressure reducer', () => {
  it.each([3.2, 4, 4.8])(
    'that show what the solved line shows while the switch stands at %d bar speak of nothing wrong',
    (standsBar) => {
      const result = judgedBy(
        'routine',
        { taps: 'closed', bar: shown('closed', { standsBar: 4.6 }) },
        { taps: { open: 1 }, bar: shown({ open: 1 }, { standsBar }) },
      );
      expect(chance(result, 'nothing-wrong')).toBeGreaterThan(0.5);
      expect(chance(result, 'gauge-faulty')).toBeLessThan(0.05);
      expect(result.warnings.filter(({ about }) => about === 'readings')).toEqual([]);
    },
  );

  it.each([
    ['too-high', 4.5],
    ['weak', 1.4],
  ])('tell one that makes it "%s", holding %d bar', (complaint, setBar) => {
    const result = judgedBy(
      complaint,
      { taps: 'closed', bar: shown('closed', { setBar }) },
      { taps: { open: 1 }, bar: shown({ open: 1 }, { setBar }) },
    );
    expect(result.causes[0]?.id).toBe('reducer-faulty');
    expect(chance(result, 'reducer-faulty')).toBeGreaterThan(0.7);
  });

  it('tell one that holds while water runs and creeps up at rest', () => {
    const result = judgedBy(
      'too-high',
      { taps: 'closed', bar: { G1: 4.9, G2: 4.6 } },
      { taps: { open: 1 }, bar: shown({ open: 1 }, {}) },
    );
    expect(result.causes[0]?.id).toBe('reducer-faulty');
    expect(chance(result, 'reducer-faulty')).toBeGreaterThan(0.9);
  });

  it('tell a blocked cartridge before it, which at rest takes nothing', () => {
    const sediment = { flowLpm: 20, dropBar: 12 };
    const result = judgedBy(
      'weak',
      { taps: 'closed', bar: shown('closed', {}) },
      { taps: { open: 1 }, bar: shown({ open: 1 }, { sediment }) },
      { taps: { open: 2 }, bar: shown({ open: 2 }, { sediment }) },
    );
    expect(result.causes[0]?.id).toBe('sediment-blocked');
    expect(chance(result, 'reducer-faulty')).toBeLessThan(0.1);
  });

  it('are no measure of a resistance while it holds, and tell what a sound one would take', () => {
    const { segments, causes } = judgedBy(
      'weak',
      { taps: 'closed', bar: shown('closed', { setBar: 1.4 }) },
      { taps: { open: 1 }, flowLpm: 8, bar: shown({ open: 1 }, { setBar: 1.4 }) },
    );
    expect(segments[0]?.dropBar).toBeGreaterThan(2);
    expect(segments[0]?.timesClean).toBeNull();
    const told = causes[0]?.reasons.find(({ finding }) => finding === 'readings')?.text;
    // 4 bar before it in the mean, 3 bar held
    expect(told).toMatch(/2\.6\d bar is lost .*clean it would be 1\.0\d/);
  });
});
