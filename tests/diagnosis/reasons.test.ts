import { describe, expect, it } from 'vitest';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import { reasonsFor } from '../../shared/diagnosis/reasons.ts';
import type { SegmentReading } from '../../shared/diagnosis/result.ts';
import { cleanDropBar } from '../../shared/diagnosis/segment-readings.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { twoGauges } from '../two-gauges.ts';
import { judged } from './judged.ts';
import { words } from './made-words.ts';

const { judgement: real } = judged(twoGauges, []);
const made = (differs: object) =>
  ({
    facts: { ...real.facts, values: new Map([['smell', 'egg']]), readings: new Map() },
    rules: { questions: { smell: { kind: 'choice' }, gauges: { kind: 'readings' } } },
    ...{ model: real.model, candidates: [{ suspect: { cause: 'filter', part: 'sed-1' } }] },
    ...differs,
  }) as unknown as Judgement;
const reasons = (
  now: number,
  without: Record<string, number>,
  segments: readonly Partial<SegmentReading>[] = [],
  differs: object = {},
  cause = 'filter',
  units: Parameters<typeof reasonsFor>[4] = siUnits,
) =>
  reasonsFor(
    cause,
    made({
      probabilities: new Map([[cause, now]]),
      without: new Map(Object.entries(without).map(([id, p]) => [id, new Map([[cause, p]])])),
      ...differs,
    }),
    segments as SegmentReading[],
    words,
    units,
  );

describe('what an answer did to a cause', () => {
  it('is the natural log of the factor on its odds, told to a hundredth', () => {
    // odds 1 now, 1/3 without: a factor of 3
    expect(reasons(0.5, { smell: 0.25 })).toEqual([
      { finding: 'smell', weight: 1.1, text: 'Smell = rotten eggs' },
    ]);
    expect(reasons(0.25, { smell: 0.5 })[0]?.weight).toBe(-1.1);
    // nothing is surer than a million million to one
    expect(reasons(1, { smell: 0.5 })[0]?.weight).toBeCloseTo(Math.log(1e12), 2);
    expect(reasons(0, { smell: 0.5 })[0]?.weight).toBeCloseTo(-Math.log(1e12), 2);
  });

  it('is left out where it moved the odds by less than a twentieth, either way', () => {
    const odds = (ln: number) => 1 / (1 + Math.exp(-ln));
    expect(reasons(0.5, { smell: odds(0.0501) })).toHaveLength(1);
    expect(reasons(0.5, { smell: odds(-0.0501) })).toHaveLength(1);
    expect(reasons(0.5, { smell: odds(0.0499) })).toEqual([]);
    expect(reasons(0.5, { smell: odds(-0.0499) })).toEqual([]);
  });

  it('stands strongest first, for or against; alike ones by their ids', () => {
    const order = (without: Record<string, number>) =>
      reasons(0.5, without).map(({ finding }) => finding);
    expect(order({ a: 0.4, b: 0.9, c: 0.2 })).toEqual(['b', 'c', 'a']);
    expect(order({ b: 0.2, a: 0.2, c: 0.2 })).toEqual(['a', 'b', 'c']);
  });

  it('of no question of the rules is told by its id, of an unworded one by its own', () => {
    expect(reasons(0.5, { gone: 0.1 })[0]?.text).toBe('gone');
    const rules = { questions: { new: { kind: 'choice' } } };
    const facts = { ...real.facts, values: new Map([['new', 'x']]) };
    expect(reasons(0.5, { new: 0.1 }, [], { rules, facts })[0]?.text).toBe('new = x');
  });
});

describe('what readings say of a cause', () => {
  const segment = (differs: Partial<SegmentReading>): Partial<SegmentReading> => ({
    ...{ from: 'G1', to: 'G2', parts: ['sed-1'], dropBar: 1.234, tooSmall: false, flowLpm: 12.4 },
    taps: { open: 1 },
    ...differs,
  });
  const told = (
    segments: Partial<SegmentReading>[],
    cause = 'filter',
    units?: Parameters<typeof reasonsFor>[4],
    differs = {},
  ) => reasons(0.5, { gauges: 0.1 }, segments, differs, cause, units)[0]?.text;
  const at = (id: string) => real.facts.plant.line.findIndex((part) => part.id === id);
  const clean = cleanDropBar(real.model, at('G1'), at('G2'), 12.4, 3);

  it('is the drop where it would sit, at its flow, beside the clean one', () => {
    expect(clean).toBeGreaterThan(0.01);
    expect(told([segment({})])).toBe(`1.23 bar G1 G2 at 12 L/min, clean ${clean.toFixed(2)}`);
    expect(told([segment({ flowLpm: null })])).toBe('1.23 bar G1 G2');
    expect(told([segment({ tooSmall: true })])).toBe('nothing G1 G2');
    // 1.234 bar are 17.9 psi; 12.4 L are 3.28 US gallons
    expect(told([segment({})], 'filter', { pressure: 'psi', volume: 'US gal' })).toBe(
      `17.9 psi G1 G2 at 3.3 US gpm, clean ${(clean * 14.5038).toFixed(1)}`,
    );
  });

  it('is the largest drop of several', () => {
    const small = segment({ from: 'G0', dropBar: 0.4 });
    expect(told([small, segment({})])).toMatch(/^1\.23 bar G1/);
    expect(told([segment({}), small])).toMatch(/^1\.23 bar G1/);
  });

  it('without a drop across it is what the gauges showed at rest, and first with water running', () => {
    const staleParts: string[] = [];
    const readings = new Map<string, object>([
      ['part-open', { taps: 'part-open', bar: { G1: 1 }, staleParts: ['sed'] }],
      ['open 2', { taps: { open: 2 }, bar: { G1: 2, G2: 'unknown' }, staleParts }],
      ['closed', { taps: 'closed', bar: { G1: 3, G2: 'unknown' }, staleParts }],
      ['open 1', { taps: { open: 1 }, bar: { G1: 9 }, staleParts }],
    ]);
    const facts = { ...real.facts, readings };
    const elsewhere = segment({ parts: ['carbon'] });
    const both = 'levels shut G1 3.0 bar; 2 taps G1 2.0 bar';
    expect(told([elsewhere], 'filter', siUnits, { facts })).toBe(both);
    expect(told([segment({})], 'pump', siUnits, { facts })).toBe(both);
    readings.delete('closed');
    expect(told([], 'pump', siUnits, { facts })).toBe('levels 2 taps G1 2.0 bar');
    expect(told([], 'filter')).toBe('levels ');
  });
});
