import { describe, expect, it } from 'vitest';
import type { Facts } from '../../shared/case/facts.ts';
import type { Answered } from '../../shared/diagnosis/answered.ts';
import type { Model } from '../../shared/diagnosis/model.ts';
import { slipsOf } from '../../shared/diagnosis/slips.ts';
import { twoGauges } from '../two-gauges.ts';
import { gauge } from './made-line.ts';
import { chanceOf, judgeCase } from './rules.ts';

/** Common practice: a pointer is misread now and then; a gauge that is wrong for good is wrong in every tap state. */
const plant = {
  ...twoGauges,
  line: twoGauges.line.map((part) =>
    part.kind === 'gauge' ? { ...part, rangeBar: 6, divisionBar: 0.1 } : part,
  ),
};
const readings = (taps: unknown, G1: number, G2: number) => ({
  question: 'readings',
  value: { taps, bar: { G1, G2 } },
});

describe('a reading at odds with the others', () => {
  it('is a slip where the same gauge reads right in every other state', () => {
    const result = judgeCase(plant, [
      readings('closed', 2.4, 3.3),
      readings({ open: 1 }, 3.3, 3.2),
      readings({ open: 2 }, 3, 2.75),
    ]);
    expect(chanceOf(result, 'gauge-faulty')).toBeLessThan(0.5);
  });

  it('is a faulty gauge where it is off alike in every state', () => {
    const result = judgeCase(plant, [
      readings('closed', 2.4, 3.3),
      readings({ open: 1 }, 2.4, 3.2),
      readings({ open: 2 }, 2.1, 2.75),
    ]);
    expect(chanceOf(result, 'gauge-faulty')).toBeGreaterThan(0.9);
  });

  it('with water running is a slip where the rise along the line is gone with more taps open', () => {
    const result = judgeCase(plant, [
      readings('closed', 3.3, 3.3),
      readings({ open: 1 }, 2.6, 3.2),
      readings({ open: 2 }, 3, 2.75),
    ]);
    expect(chanceOf(result, 'gauge-faulty')).toBeLessThan(0.2);
  });
});

/** Common practice: a mark is taken for its neighbour far oftener than for one at the other end of the dial. */
describe('a drop that is told once', () => {
  const lost = (rangeBar: number, drop: number, fittedOn?: string) =>
    judgeCase(
      {
        ...twoGauges,
        line: twoGauges.line.map((part) => {
          if (part.kind === 'gauge') return { ...part, rangeBar };
          return part.kind === 'filter' ? { ...part, lifeMonths: 6, fittedOn } : part;
        }),
      },
      [
        { question: 'complaint', value: ['weak'] },
        ...(fittedOn ? [{ question: 'recent-work', value: ['filters'] }] : []),
        readings('closed', 3.3, 3.3),
        readings({ open: 1 }, 3, 3 - drop),
      ],
    );

  it.each([6, 10])(
    'of 1.7 bar at gauges to %d bar is in what stands between them, lately changed or not',
    (rangeBar) => {
      expect(chanceOf(lost(rangeBar, 1.7), 'sediment-blocked')).toBeGreaterThan(0.97);
      const changed = lost(rangeBar, 1.7, '2026-11-20');
      expect(changed.causes[0]?.id).toBe('sediment-blocked');
    },
  );

  it('of a mark or two may still have been misread', () => {
    expect(chanceOf(lost(10, 0.4, '2026-11-20'), 'sediment-blocked')).toBeLessThan(0.3);
  });
});

describe('a reading that may be a slip', () => {
  // each at rest known to 0.1 bar; with water running to 0.05 bar, at no gain, its offset unknown or out
  const own = { gain: 0, offsetBar: 0.08, readingBar: 0.06 };
  const gauges = [gauge(1, own), gauge(3, { ...own, rangeBar: 6 }), gauge(5, own)];
  type Bar = Readonly<Record<string, number>>;
  const slips = (closed: Bar | null, open: Bar | null) =>
    slipsOf(
      { gauges, curves: { datumM: 0 } } as unknown as Model,
      { offsets: closed && { taps: 'closed', bar: closed } } as unknown as Facts,
      {
        readings: [
          ...(closed ? [['closed', { taps: 'closed', bar: closed }]] : []),
          ...(open ? [['open 1', { taps: { open: 1 }, bar: open }]] : []),
        ],
      } as unknown as Answered,
    ).map((slip) => [slip.state, slip.gauge, slip.density]);

  it('at rest stands 2.5 standard deviations of a difference from the middle of the others', () => {
    const bound = 2.5 * Math.SQRT2 * 0.1;
    const of = (off: number) => slips({ G1: 3, G3: 3 + off, G5: 3 }, null);
    const slip = ['closed', 'G3', expect.closeTo(1 / 60 / 6, 12)];
    expect(of(bound + 1e-6)).toEqual([slip]);
    expect(of(-bound - 1e-6)).toEqual([slip]);
    expect(of(bound - 1e-6)).toEqual([]);
    // of two either may be it; a lone one is at odds with nothing
    expect(slips({ G1: 3, G3: 3.4 }, null).map(([, id]) => id)).toEqual(['G1', 'G3']);
    expect(slips({ G1: 3 }, null)).toEqual([]);
    expect(slips(null, null)).toEqual([]);
  });

  it('with water running is one of the two between which pressure rises', () => {
    const bound = 2.5 * Math.SQRT2 * 0.1;
    const of = (rise: number) => slips(null, { G1: 2, G3: 2 + rise, G5: 1 });
    expect(of(bound + 1e-6)).toEqual([
      ['open 1', 'G1', expect.closeTo(0.01 / 10, 12)],
      ['open 1', 'G3', expect.closeTo(0.01 / 6, 12)],
    ]);
    expect(of(bound - 1e-6)).toEqual([]);
    // however far it falls, that is what water does
    expect(slips(null, { G1: 5, G3: 2, G5: 0 })).toEqual([]);
    // two rises share a gauge
    expect(slips(null, { G1: 1, G3: 2, G5: 3 }).map(([, id]) => id)).toEqual(['G1', 'G3', 'G5']);
  });

  it('is judged with the offsets that the closed reading told taken out', () => {
    const offsets = { G1: 3, G3: 3.3 };
    expect(slips(offsets, { G1: 2, G3: 2.4 })).toEqual([]);
    expect(slips(offsets, { G1: 2.4, G3: 2.4 })).toEqual([]);
    // 0.06 of each reading, twice over: 2.5 × 0.12 bar
    expect(slips(offsets, { G1: 2, G3: 2.3 + 0.301 })).toHaveLength(2);
    expect(slips(offsets, { G1: 2, G3: 2.3 + 0.299 })).toHaveLength(0);
  });
});
