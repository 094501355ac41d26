import { type Course, type LoadingLaw, loadingLaws } from './laws.ts';
import { AS_STATED, errorsOf, logLikelihood, SCALES, type Scales } from './likelihood.ts';
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
/** A course less likely than this share of the likeliest one changes no date that anyone could see. */
const NEGLIGIBLE = 1e-6;

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
  const laid: Cells[] = [];
  for (const law of loadingLaws) {
    // A straight course is as straight with a part that stands still.
    const stills = law.exponent === 0 ? [0] : [0, ...run.stills];
    for (const still of stills) {
      const loads = above(run, still);
      const end = loads.points.at(-1) ?? last;
      const share = { law, still, logPrior: Math.log(law.prior / stills.length) };
      const wide = wideGrid(law.fromClean ? loads.start : null, loads, end, scale, floor);
      const first = cellsOf(loads, share, wide, last.day, AS_STATED);
      laid.push(cellsOf(loads, share, aroundWeight(first), last.day, SCALES));
    }
  }
  const top = Math.max(...laid.map((cells) => cells.top));
  if (!Number.isFinite(top)) return null;
  let total = 0;
  const kept: WeightedCourse[] = [];
  for (const cells of laid) {
    cells.logWeights.forEach((logWeight, at) => {
      const weight = Math.exp(logWeight - top);
      total += weight;
      if (weight > NEGLIGIBLE)
        kept.push({
          law: cells.share.law.id,
          course: courseAt(cells, at, run.from, last.day),
          weight,
        });
    });
  }
  if (!Number.isFinite(total)) return null;
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

/** One law with what stands still beside it, and the log of its weight beforehand. */
interface Share {
  readonly law: LoadingLaw;
  readonly still: number;
  readonly logPrior: number;
}

/** Log weights (not normalised) of one law on a grid, row by row; a cell's own area is in its weight. */
interface Cells {
  readonly share: Share;
  readonly grid: Grid;
  readonly logWeights: Float64Array;
  readonly top: number;
}

const log0At = ({ low0, high0 }: Grid, i: number) => low0 + (i * (high0 - low0)) / (STEPS_0 - 1);
const log1At = ({ low1, high1 }: Grid, j: number) => low1 + (j * (high1 - low1)) / (STEPS_1 - 1);

function cellsOf(run: Run, share: Share, grid: Grid, lastDay: number, scales: Scales): Cells {
  const { law, logPrior } = share;
  const step0 = log0At(grid, 1) - grid.low0;
  const step1 = log1At(grid, 1) - grid.low1;
  const logArea = Math.log(Math.max(1e-9, step0) * Math.max(1e-9, step1));
  const logWeights = new Float64Array(STEPS_0 * STEPS_1);
  const errors = errorsOf(run, law, lastDay);
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < STEPS_0; i++) {
    const log0 = log0At(grid, i);
    const r0 = Math.exp(log0);
    const prior = logPrior + logArea + logStartPrior(run, law, log0);
    for (let j = 0; j < STEPS_1; j++) {
      const r1 = Math.exp(log1At(grid, j));
      const logWeight = prior + logLikelihood(run, law.exponent, r0, r1, scales, errors);
      if (logWeight > top) top = logWeight;
      logWeights[i * STEPS_1 + j] = logWeight;
    }
  }
  return { share, grid, logWeights, top };
}

function courseAt({ share, grid }: Cells, at: number, t0: number, t1: number): Course {
  const { law, still } = share;
  const r0 = Math.exp(log0At(grid, Math.floor(at / STEPS_1))) + still;
  const r1 = Math.exp(log1At(grid, at % STEPS_1)) + still;
  return { exponent: law.exponent, power: law.power, still, t0, r0, t1, r1 };
}

/** The stretch of a grid that holds nearly all the weight, with a margin. */
function aroundWeight({ grid, logWeights, top }: Cells): Grid {
  let [first0, last0, first1, last1] = [STEPS_0, -1, STEPS_1, -1];
  logWeights.forEach((logWeight, at) => {
    if (!(logWeight > top - 9)) return;
    const [i, j] = [Math.floor(at / STEPS_1), at % STEPS_1];
    [first0, last0] = [Math.min(first0, i), Math.max(last0, i)];
    [first1, last1] = [Math.min(first1, j), Math.max(last1, j)];
  });
  if (last0 < 0) return grid;
  return {
    low0: log0At(grid, Math.max(0, first0 - 1)),
    high0: log0At(grid, Math.min(STEPS_0 - 1, last0 + 1)),
    low1: log1At(grid, first1 - 1),
    high1: log1At(grid, last1 + 1),
  };
}

/** Only laws that begin with a clean cartridge use what is known of it; the floor begins wherever the points say. */
function logStartPrior({ start }: Run, law: LoadingLaw, log0: number): number {
  if (!start || !law.fromClean) return -Math.log(Math.log(MOST_START / LEAST_START));
  const z = (log0 - Math.log(start.resistance)) / start.logSd;
  return -0.5 * z * z - Math.log(start.logSd * Math.sqrt(2 * Math.PI));
}
