import { beforeAll, describe, expect, it } from 'vitest';
import { assessFigures } from '../../bench/assess-figures.ts';
import { type Figures, figuresOf } from '../../src/assess/figures.ts';
import { reportText } from '../../src/assess/report.ts';
import { run } from '../../src/assess/run.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { full, measured } from '../full.ts';

/** A small run for every change; the full run plays 2000 unless ASSESS_WORLDS says else (see docs/assess.md). */
const worlds = Number(process.env.ASSESS_WORLDS ?? (full ? 2000 : 40));
const seed = Number(process.env.ASSESS_SEED ?? 1);

describe(`${worlds} virtual plants, seed ${seed}`, () => {
  const wanted = {
    worlds,
    seed,
    from: 0,
    gauges: null,
    audience: 'each',
    asking: 'next',
    sampling: 'rates',
  } as const;
  let figures: Figures;
  beforeAll(() => {
    figures = figuresOf(Array.from(run(latestRuleSet(), wanted), ({ score }) => score));
    for (const figure of assessFigures(figures, wanted)) measured(...figure);
  }, worlds * 15_000);
  // Two standard deviations of a share over so few worlds.
  const slack = (share: number) => 2 * Math.sqrt((share * (1 - share)) / worlds);

  it('a true fault is named first in three of four, and is among the first three in nine of ten', () => {
    expect(figures.tool.first.share).toBeGreaterThan(0.75 - slack(0.75));
    expect(figures.tool.three.share).toBeGreaterThan(0.9 - slack(0.9));
  });

  it('the tool loses little against the exact posterior under the generator’s own tables', () => {
    expect(figures.tool.first.share).toBeGreaterThan(figures.own.first.share - 0.05 - slack(0.9));
  });

  it('does better than the rule of thumb on the same plants', () => {
    expect(figures.toolWithTwoGauges.first.share).toBeGreaterThan(figures.thumb.first.share);
  });

  it('probabilities mean what they say: expected calibration error at most 0.05', () => {
    expect(figures.calibration.error).toBeLessThan(0.05);
  });

  it('asks at most 14 questions in half of the cases', () => {
    expect(figures.questions.median).toBeLessThanOrEqual(14);
  });

  it('costs at most 60 % of replacing the usual parts in the usual order', () => {
    expect(figures.cost.ofUsual).toBeLessThan(0.6);
  });

  it('the report says all of it, the confusion table too', () => {
    const text = reportText(figures);
    for (const words of [
      'overall',
      'expected calibration error',
      'questions',
      'usual parts',
      'named first',
    ])
      expect(text).toContain(words);
  });
});
