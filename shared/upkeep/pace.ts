import { type Fit, fitRun, type Run } from './fit.ts';
import { resistanceOn } from './laws.ts';
import { type Point, uncertaintyAt } from './resistance.ts';
import { trendOf } from './trend.ts';

/** Loading that no longer goes on as it did: after a storm, a torn cartridge, a new source. */
export interface PaceChange {
  /** faster or slower than before, or resistance that fell though nothing was changed */
  readonly kind: 'faster' | 'slower' | 'fell';
  /** day of the first reading that shows it */
  readonly day: number;
  /** the run as it goes on from there */
  readonly run: Run;
  readonly fit: Fit;
}

const LEAST_BEFORE = 3;
const LEAST_AFTER = 2;
/** Two straight pieces must misfit by so much less (in squared errors) for a change to be looked into at all. */
const SUSPICIOUS = 6;
const SPLITS_TRIED = 3;
/** A run changes its pace about once in ten (our own estimate); it is told from this log odds on. */
const CHANGES_PER_RUN = 0.1;
const TOLD_FROM = Math.log(4);
/** Less than so much of it left counts as fallen. */
const FELL_TO = 0.85;

/**
 * Looks for the day after which two runs explain the points better than one (by the probability of the points under
 * each, so that the second run's freedom is paid for).
 *
 * @param whole the run fitted as one
 */
export function findPaceChange(run: Run, whole: Fit): PaceChange | null {
  const { points } = run;
  if (points.length < LEAST_BEFORE + LEAST_AFTER) return null;
  const splits = suspects(points, whole).slice(0, SPLITS_TRIED);
  let best: { k: number; odds: number; before: Fit; after: Fit } | null = null;
  for (const k of splits) {
    const before = fitRun({ ...run, points: points.slice(0, k) });
    const after = fitRun(tailOf(run, k));
    if (!before || !after) continue;
    const prior = Math.log(CHANGES_PER_RUN / (points.length - LEAST_BEFORE - LEAST_AFTER + 1));
    const odds = before.logEvidence + after.logEvidence - whole.logEvidence + prior;
    if (odds > TOLD_FROM && (!best || odds > best.odds)) best = { k, odds, before, after };
  }
  return best && changeAt(run, best.k, best.before, best.after);
}

/** Where two straight pieces misfit the points least, the best first; none where one run does nearly as well. */
function suspects(points: readonly Point[], fit: Fit): number[] {
  const misfit = points.reduce((sum, point) => {
    const expected = expectedOn(fit, point.day);
    return sum + ((point.resistance - expected) / uncertaintyAt(point, expected)) ** 2;
  }, 0);
  const found: { k: number; misfit: number }[] = [];
  for (let k = LEAST_BEFORE; k <= points.length - LEAST_AFTER; k++) {
    found.push({ k, misfit: lineMisfit(points.slice(0, k)) + lineMisfit(points.slice(k)) });
  }
  return found
    .filter((split) => split.misfit < misfit - SUSPICIOUS)
    .sort((a, b) => a.misfit - b.misfit)
    .map(({ k }) => k);
}

/** Sum of squared errors about the best straight line, each in its own standard uncertainty. */
function lineMisfit(points: readonly Point[]): number {
  const readings = points.map((point) => {
    const value = Math.max(point.resistance, 0);
    return { day: point.day, value: point.resistance, u: uncertaintyAt(point, value) };
  });
  const trend = trendOf(readings);
  if (!trend) return 0;
  return readings.reduce((sum, { day, value, u }) => {
    const expected = trend.value + trend.perDay * (day - trend.meanDay);
    return sum + ((value - expected) / u) ** 2;
  }, 0);
}

/** The later points as a run of their own, of whose beginning nothing else is known. */
function tailOf(run: Run, k: number): Run {
  const tail = run.points.slice(k);
  return { ...run, from: tail[0]?.day ?? 0, points: tail, start: null };
}

function changeAt(whole: Run, k: number, before: Fit, fit: Fit): PaceChange | null {
  const run = tailOf(whole, k);
  const first = run.points[0];
  if (!first) return null;
  const expected = expectedOn(before, first.day);
  const there = expectedOn(fit, first.day);
  const fell = there < FELL_TO * expected && there < before.now.resistance - 2 * before.now.u;
  if (fell) return { kind: 'fell', day: first.day, run, fit };
  const ahead = 30;
  const paceBefore = expectedOn(before, first.day + ahead) - expected;
  const paceAfter = expectedOn(fit, first.day + ahead) - there;
  const jumped = there > expected * (2 - FELL_TO);
  return { kind: jumped || paceAfter > paceBefore ? 'faster' : 'slower', day: first.day, run, fit };
}

/** Resistance on a day by the fit: the middle of what its courses say. */
export function expectedOn(fit: Fit, day: number): number {
  return resistanceBand(fit, day, [0.5])[0] ?? Number.NaN;
}

/** Quantiles of the resistance on a day, by weight of the courses. */
export function resistanceBand(fit: Fit, day: number, shares: readonly number[]): number[] {
  const values = fit.courses
    .map(({ course, weight }) => ({ r: resistanceOn(course, day), weight }))
    .sort((a, b) => a.r - b.r);
  return shares.map((share) => {
    let passed = 0;
    for (const { r, weight } of values) {
      passed += weight;
      if (passed >= share) return r;
    }
    return values.at(-1)?.r ?? Number.NaN;
  });
}
