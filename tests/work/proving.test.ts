import { expect, it } from 'vitest';
import type { SegmentReading } from '../../shared/diagnosis/result.ts';
import { type Measured, proveWork } from '../../shared/work/proving.ts';

const segment = (dropBar: number): SegmentReading => ({
  ...{ from: 'G1', to: 'G2', parts: ['valve-1', 'sed-1'], taps: { open: 1 }, dropBar },
  ...{ uncertaintyBar: 0.1, tooSmall: false, flowLpm: 5, timesClean: dropBar * 40, measured: true },
});
const known = (causes: Record<string, number>, dropBar: number): Measured => ({
  causes: Object.entries(causes).map(([id, probability]) => ({ id, probability })),
  segments: [segment(dropBar)],
});
const outcome = (before: Measured, after: Measured, part: string | null = 'sed-1') =>
  proveWork(before, after, 'sediment-blocked', part).outcome;

const blocked = known({ 'sediment-blocked': 0.9, 'valve-part-closed': 0.08 }, 1.9);

it('a drop that stayed as it was is no improvement, whatever else is blamed now', () => {
  const asBefore = known({ 'sediment-blocked': 0.05, 'valve-part-closed': 0.9 }, 1.88);
  expect(outcome(blocked, asBefore)).toBe('no-change');
  // for what does not hinder the water the drop says nothing
  expect(outcome(blocked, asBefore, null)).toBe('better');
});

it('a drop that fell beyond its uncertainty is one, even where something is left', () => {
  const less = known({ 'sediment-blocked': 0.05, 'valve-part-closed': 0.9 }, 0.9);
  expect(outcome(blocked, less)).toBe('better');
  expect(outcome(less, blocked)).toBe('worse');
});

it('nothing left is the end of it', () => {
  expect(outcome(blocked, known({ 'sediment-blocked': 0.02 }, 0.05))).toBe('cured');
});
