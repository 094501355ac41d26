import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import { judge } from '../../shared/diagnosis/judge.ts';
import { full } from '../full.ts';
import { caseArb } from './random-case.ts';
import { DAY, judgeCase, ruleSet } from './rules.ts';

const SEED = 20261125;

describe(`random well-formed cases (seed ${SEED})`, () => {
  it('give finite probabilities in [0,1] that agree with each other, and never an exception', () => {
    fc.assert(
      fc.property(caseArb, ({ plant, answers }) => {
        const { causes, plan, segments } = judgeCase(plant, answers);
        for (const { probability, reasons } of causes) {
          expect(probability).toBeGreaterThanOrEqual(0);
          expect(probability).toBeLessThanOrEqual(1);
          for (const { weight } of reasons) expect(Number.isFinite(weight)).toBe(true);
        }
        for (const { cures, expectedCost } of plan) {
          expect(cures).toBeGreaterThanOrEqual(0);
          expect(cures).toBeLessThanOrEqual(1);
          expect(Number.isFinite(expectedCost)).toBe(true);
        }
        for (const { dropBar, uncertaintyBar } of segments) {
          expect(Number.isFinite(dropBar)).toBe(true);
          expect(uncertaintyBar).toBeGreaterThan(0);
        }
      }),
      { numRuns: full ? 10_000 : 400, seed: SEED },
    );
  }, 1_800_000);

  it('have sets that sum to one', () => {
    fc.assert(
      fc.property(caseArb, ({ plant, answers }) => {
        const { posterior } = judge(factsOf(plant, answers, ruleSet, { system: DAY }), ruleSet);
        const sum = posterior.joint.reduce((total, p) => total + p, posterior.notListed);
        expect(sum).toBeCloseTo(1, 9);
      }),
      { numRuns: full ? 2000 : 150, seed: SEED + 1 },
    );
  }, 900_000);

  it('give the same bytes for the same input, and for answers to different questions in another order', () => {
    fc.assert(
      fc.property(caseArb, fc.integer(), ({ plant, answers }, salt) => {
        const latest = [
          ...new Map(
            answers.map((answer) => [
              JSON.stringify([answer.question, tapsOf(answer.value)]),
              answer,
            ]),
          ).values(),
        ];
        // A plain "unknown" to the readings speaks about every tap state, so its place in the order matters.
        const single = latest.filter(
          (answer) => !(answer.question === 'readings' && answer.value === 'unknown'),
        );
        const shuffled = [...single].sort((a, b) => hash(a, salt) - hash(b, salt));
        expect(JSON.stringify(judgeCase(plant, shuffled))).toBe(
          JSON.stringify(judgeCase(plant, single)),
        );
      }),
      { numRuns: full ? 1000 : 80, seed: SEED + 2 },
    );
  }, 900_000);
});

const tapsOf = (value: unknown) =>
  typeof value === 'object' && value !== null && 'taps' in value && 'bar' in value
    ? value.taps
    : null;

function hash(value: unknown, salt: number): number {
  let h = salt;
  for (const char of JSON.stringify(value)) h = (h * 31 + char.charCodeAt(0)) | 0;
  return h;
}
