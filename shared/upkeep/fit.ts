import { type Course, type LoadingLaw, loadingLaws } from './laws.ts';
import { AS_STATED, logLikelihood, SCALES, type Scales } from './likelihood.ts';
import type { Point } from './resistance.ts';

/** One stage's loading since its cartridge was new (or since its pace last changed). */
export interface Run {
  /** the day it began; resistance at that day is `start` */
  readonly from: number;
  readonly points: readonly Point[];
  /** what is known of the resistance at its beginning: median and spread of its log; null: nothing */
  readonly start: { readonly resistance: number; readonly logSd: number } | null;
  /** standard uncertainty of the drop error that all points share (what is left of the gauges' kept errors), Pa */
  readonly keptPa: number;
  /** clean resistances of what may stand still while the rest loads, Pa/(m³/s); empty: all of it loads */
  readonly stills: readonly number[];
}

/** A course that may be the true one, with its probability. */
export interface WeightedCourse {
  readonly law: LoadingLaw['id'];
  readonly course: Course;
  readonly weight: number;
}

export interface Fit {
  readonly courses: readonly WeightedCourse[];
  /** law → probability */
  readonly laws: Readonly<Record<string, number>>;
  /** log of the probability of the points, all laws together: for comparing one run with two */
  readonly logEvidence: number;
  /** resistance at the last point: mean and standard deviation */
  readonly now: { readonly day: number; readonly resistance: number; readonly u: number };
}

const STEPS_0 = 21;
const STEPS_1 = 31;
/** Nothing known of the start: anywhere between these shares of what is there later, evenly in the log. */
const LEAST_START = 0.02;
const MOST_START = 1.5;
/** Where the resistance at the last point may lie beforehand: evenly in the log over three decades. */
const LOG_RANGE = Math.log(1000);
const PRIORS = loadingLaws.reduce((sum, law) => sum + law.prior, 0);

interface Grid {
  readonly low0: number;
  readonly high0: number;
  readonly low1: number;
  readonly high1: number;
}

/**
 * Fits every law to a run: the probability of each pair (resistance at the beginning, at the last point) on a grid, summed
 * over how true the stated uncertainties are. The grid is laid twice, wide and then where the weight is.
 *
 * @returns null with no point, or none after the day the run began
 */
export function fitRun(run: Run): Fit | null {
  const last = run.points.at(-1);
  if (!last || last.day <= run.from) return null;
  const scale = Math.max(...run.points.map((p) => p.resistance), run.start?.resistance ?? 0, 1);
  const floor = 1e-3 * (run.start?.resistance ?? scale);
  const cells: WeightedCourse[] = [];
  for (const law of loadingLaws) {
    // A straight course is as straight with a part that stands still.
    const stills = law.exponent === 0 ? [0] : [0, ...run.stills];
    for (const still of stills) {
      const loads = above(run, still);
      const end = loads.points.at(-1) ?? last;
      const share = { law, still, logPrior: Math.log(law.prior / stills.length) };
      const wide = wideGrid(law.fromClean ? loads.start : null, loads, end, scale, floor);
      const first = gridOf(loads, share, wide, last.day, AS_STATED);
      const narrow = aroundWeight(first.cells, first.top, wide);
      cells.push(...gridOf(loads, share, narrow, last.day, SCALES).cells);
    }
  }
  const top = Math.max(...cells.map((cell) => cell.weight));
  if (!Number.isFinite(top)) return null;
  let total = 0;
  const weighted = cells.map((cell) => {
    const weight = Math.exp(cell.weight - top);
    total += weight;
    return { ...cell, weight };
  });
  const kept = weighted.filter((cell) => cell.weight > 1e-6);
  const logPriors = Math.log(LOG_RANGE) + Math.log(PRIORS);
  return summed(
    kept.map((cell) => ({ ...cell, weight: cell.weight / total })),
    top + Math.log(total) - logPriors,
    last.day,
  );
}

/** A run without the part of it that stands still: flow errors act on that part too. */
function above(run: Run, still: number): Run {
  if (still === 0) return run;
  const { points, start } = run;
  return {
    ...run,
    points: points.map((point) => ({
      ...point,
      resistance: point.resistance - still,
      housings: point.housings + still,
    })),
    start: start && { ...start, resistance: start.resistance - still },
  };
}

function summed(courses: WeightedCourse[], logEvidence: number, day: number): Fit {
  const laws: Record<string, number> = {};
  let meanNow = 0;
  let square = 0;
  for (const { law, course, weight } of courses) {
    laws[law] = (laws[law] ?? 0) + weight;
    meanNow += weight * course.r1;
    square += weight * course.r1 ** 2;
  }
  const u = Math.sqrt(Math.max(0, square - meanNow ** 2));
  return { courses, laws, logEvidence, now: { day, resistance: meanNow, u } };
}

/** Wide enough for whatever the points may mean. Bounds are logs. */
function wideGrid(start: Run['start'], run: Run, last: Point, scale: number, floor: number): Grid {
  const near = run.points.slice(-4).map((point) => point.resistance);
  const spread = 3 * last.uByDrop;
  const low1 = Math.max(floor, 0.5 * Math.min(...near) - spread);
  const high1 = 1.6 * Math.max(...near, floor) + spread;
  return {
    low0: start
      ? Math.log(start.resistance) - 3 * start.logSd
      : Math.log(Math.max(floor, LEAST_START * scale)),
    high0: start ? Math.log(start.resistance) + 3 * start.logSd : Math.log(MOST_START * scale),
    low1: Math.log(low1),
    high1: Math.log(Math.max(high1, 1.01 * low1)),
  };
}

/** The stretch of a grid that holds nearly all the weight, with a margin. */
function aroundWeight(cells: readonly WeightedCourse[], top: number, wide: Grid): Grid {
  const step0 = (wide.high0 - wide.low0) / (STEPS_0 - 1);
  const step1 = (wide.high1 - wide.low1) / (STEPS_1 - 1);
  const kept = cells.filter((cell) => cell.weight > top - 9);
  if (kept.length === 0) return wide;
  const logs0 = kept.map(({ course }) => Math.log(course.r0 - course.still));
  const logs1 = kept.map(({ course }) => Math.log(course.r1 - course.still));
  return {
    low0: Math.max(wide.low0, Math.min(...logs0) - step0),
    high0: Math.min(wide.high0, Math.max(...logs0) + step0),
    low1: Math.min(...logs1) - step1,
    high1: Math.max(...logs1) + step1,
  };
}

/** One law with what stands still beside it, and the log of its weight beforehand. */
interface Share {
  readonly law: LoadingLaw;
  readonly still: number;
  readonly logPrior: number;
}

/** Log weights (not normalised) of one law on a grid; a cell's own area is in its weight. */
function gridOf(
  run: Run,
  { law, still, logPrior }: Share,
  grid: Grid,
  lastDay: number,
  scales: Scales,
): { cells: WeightedCourse[]; top: number } {
  const step0 = (grid.high0 - grid.low0) / (STEPS_0 - 1);
  const step1 = (grid.high1 - grid.low1) / (STEPS_1 - 1);
  const logArea = Math.log(Math.max(1e-9, step0) * Math.max(1e-9, step1));
  const cells: WeightedCourse[] = [];
  const room = () => new Float64Array(run.points.length);
  const errors = { own: room(), shared: room() };
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < STEPS_0; i++) {
    const log0 = grid.low0 + i * step0;
    const startPrior = logStartPrior(run, law, log0);
    for (let j = 0; j < STEPS_1; j++) {
      const r0 = Math.exp(log0);
      const r1 = Math.exp(grid.low1 + j * step1);
      const { exponent, power } = law;
      const loads = { exponent, power, still: 0, t0: run.from, r0, t1: lastDay, r1 };
      const course = { ...loads, still, r0: r0 + still, r1: r1 + still };
      const weight = logPrior + logArea + startPrior + logLikelihood(run, loads, scales, errors);
      if (weight > top) top = weight;
      cells.push({ law: law.id, course, weight });
    }
  }
  return { cells, top };
}

/** Only laws that begin with a clean cartridge use what is known of it; the floor begins wherever the points say. */
function logStartPrior({ start }: Run, law: LoadingLaw, log0: number): number {
  if (!start || !law.fromClean) return -Math.log(Math.log(MOST_START / LEAST_START));
  const z = (log0 - Math.log(start.resistance)) / start.logSd;
  return -0.5 * z * z - Math.log(start.logSd * Math.sqrt(2 * Math.PI));
}
