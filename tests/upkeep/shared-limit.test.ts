import { describe, expect, it } from 'vitest';
import { forecastDates } from '../../shared/upkeep/forecast.ts';
import { type Course, dayReached, loadingLaws, resistanceOn } from '../../shared/upkeep/laws.ts';
import type { StageLoading } from '../../shared/upkeep/loading.ts';

/** A stage whose course is known for sure: clean, then so much more each day. */
function stage(id: string, clean: number, perDay: number): StageLoading {
  const course: Course = {
    exponent: 0,
    power: 1,
    still: 0,
    t0: 0,
    r0: clean,
    t1: 100,
    r1: clean + 100 * perDay,
  };
  return {
    series: {
      from: 'a',
      to: 'b',
      filters: [id],
      clean,
      cleans: [clean],
      cleanAssumed: false,
      keptPa: 0,
      keptFlowU: 0,
      points: [],
    },
    ...{ changes: [0], run: null, pace: null },
    fit: {
      courses: [{ law: 'cake', course, weight: 1 }],
      laws: { cake: 1 },
      logEvidence: 0,
      now: { day: 100, resistance: course.r1, u: 0 },
    },
  };
}

const horizon = 2000;
const around = { others: 0, limitLogSd: 0, horizon };

describe('stages that share one limit', () => {
  it('fail together: the one that grew most is changed then, the other when the limit comes again', () => {
    const [fast, slow] = forecastDates([stage('fast', 1, 0.1), stage('slow', 1, 0.02)], 26, around);
    // 2 + 0.12·t = 26 at t = 200. Then fast is new: 1 + 0.1·(t − 200) + 1 + 0.02·t = 26 at t = 366.7,
    // where fast grew by 16.7 and slow by 7.3: fast again, and so on until slow has grown more.
    expect(fast?.on).toBeCloseTo(200, -0.7);
    let [changed, day] = [200, 200];
    for (;;) {
      day = (24 + 0.1 * changed) / 0.12;
      if (0.02 * day > 0.1 * (day - changed)) break;
      changed = day;
    }
    expect(Math.abs((slow?.on ?? 0) / day - 1)).toBeLessThan(0.05);
    expect(slow?.on).toBeGreaterThan(fast?.on ?? 0);
  });

  it('reach it later alone, and sooner beside a filter that nobody reads', () => {
    const alone = forecastDates([stage('fast', 1, 0.1)], 26, around)[0];
    const beside = forecastDates([stage('fast', 1, 0.1)], 26, { ...around, others: 5 })[0];
    expect(alone?.on).toBeCloseTo(250, -0.7);
    expect(beside?.on).toBeCloseTo(200, -0.7);
  });

  it('get no date when nothing grows, or the need never fails', () => {
    expect(forecastDates([stage('still', 1, 0)], 26, around)).toEqual([null]);
    expect(forecastDates([stage('fast', 1, 0.1)], Number.POSITIVE_INFINITY, around)).toEqual([
      null,
    ]);
  });
});

describe('every loading law', () => {
  it.each(loadingLaws.map((law) => [law.id, law] as const))(
    '%s: the day a resistance is reached is the day it is there',
    (_, law) => {
      const course: Course = { ...law, still: 0, t0: 10, r0: 2, t1: 110, r1: 9 };
      expect(resistanceOn(course, 10)).toBeCloseTo(2, 9);
      expect(resistanceOn(course, 110)).toBeCloseTo(9, 9);
      for (const r of [3, 7, 12])
        expect(resistanceOn(course, dayReached(course, r))).toBeCloseTo(r, 6);
    },
  );

  it('follows its differential equation dR/dt = k·Rⁿ (Hlavacek & Bouchet 1993)', () => {
    for (const { exponent, power } of loadingLaws.filter((law) => law.power === 1)) {
      const course: Course = { exponent, power, still: 0, t0: 0, r0: 2, t1: 100, r1: 9 };
      const rate = (day: number) =>
        (resistanceOn(course, day + 0.01) - resistanceOn(course, day - 0.01)) / 0.02;
      const k = (day: number) => rate(day) / resistanceOn(course, day) ** exponent;
      for (const day of [20, 60, 95]) expect(k(day) / k(40)).toBeCloseTo(1, 5);
    }
  });
});
