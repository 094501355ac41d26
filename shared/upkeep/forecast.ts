import { type Course, dayReached, resistanceOn } from './laws.ts';
import type { StageLoading } from './loading.ts';
import { evenDraws, evenNumber, normalQuantile, quantileOf, ranksOf } from './sampling.ts';

/** When a stage brings the plant to fail its need: middle and 80 % interval, as moments in days. */
export interface DateForecast {
  readonly on: number;
  readonly from: number;
  readonly to: number;
  /** chance that it happens within the horizon at all */
  readonly chance: number;
}

const DRAWS = 400;
/** 80 % interval. */
const LOW = 0.1;
const HIGH = 0.9;
/** No household uses alike every month: the pace ahead differs from the pace so far by about so much (our own estimate). */
const PACE_LOG_SD = 0.02;
/** A stage changed at the limit goes on from clean; more than so many changes within the horizon tell nothing new. */
const MOST_CHANGES = 40;

/** Tell the draws of the pace and of the limit from those of the stages. */
const LEVEL_STREAM = 0;
const PACE_STREAM = 500;
const LIMIT_STREAM = 1000;

export interface Around {
  /** linear resistance of filters without readings, Pa/(m³/s) */
  readonly others: number;
  /** how unsure the limit is: standard deviation of its log */
  readonly limitLogSd: number;
  /** no date after this day */
  readonly horizon: number;
}

/** One stage in one possible world: how it goes on, and how it loads once it is new again. */
interface Path {
  readonly course: Course;
  /** last reading: from there on the pace may differ */
  readonly knownTo: number;
  readonly pace: number;
  readonly clean: number;
}

/**
 * Dates at which each stage must be changed so that the house keeps its need. The stages load together and share one
 * limit: in every possible world the plant runs until the sum of their resistances reaches it, the stage that grew most is
 * changed, and so on; the first change of each stage is its date.
 *
 * @param limit linear resistance of all filters at which the need fails, Pa/(m³/s); Infinity: never
 * @returns by index of the stage; null where it is not needed within the horizon (or nothing is known)
 */
export function forecastDates(
  stages: readonly StageLoading[],
  limit: number,
  { others, limitLogSd, horizon }: Around,
): (DateForecast | null)[] {
  if (!Number.isFinite(limit)) return stages.map(() => null);
  const worlds = pathsTogether(stages);
  const dates: number[][] = stages.map(() => []);
  for (let w = 0; w < DRAWS; w++) {
    const paths = worlds.map((paths) => paths?.[w] ?? null);
    const moved = limit * Math.exp(limitLogSd * normalQuantile(evenNumber(w, LIMIT_STREAM)));
    const first = firstChanges(paths, stages, moved - others, horizon);
    for (const [i, day] of first.entries()) dates[i]?.push(day);
  }
  return dates.map((days, i) => {
    if (!worlds[i]) return null;
    const chance = days.filter((day) => day <= horizon).length / DRAWS;
    if (chance < 0.5) return null;
    const to = quantileOf(days, HIGH);
    return { on: quantileOf(days, 0.5), from: quantileOf(days, LOW), to, chance };
  });
}

/** Possible courses of every stage, paired into worlds as the errors that neighbours share ask for. */
function pathsTogether(stages: readonly StageLoading[]): (Path[] | null)[] {
  let before: number[] = [];
  return stages.map((stage, i) => {
    const { fit, series } = stage;
    if (!fit) return null;
    const shared = correlation(stages[i - 1], stage);
    const levels = Array.from({ length: DRAWS }, (_, w) => {
      const own = normalQuantile(evenNumber(w, LEVEL_STREAM + i));
      return shared * (before[w] ?? 0) + Math.sqrt(1 - shared ** 2) * own;
    });
    before = levels;
    const courses = [...fit.courses].sort((a, b) => a.course.r1 - b.course.r1);
    const draws = evenDraws(courses, ({ weight }) => weight, DRAWS);
    return ranksOf(levels).flatMap((rank, w) => {
      const drawn = draws[rank];
      if (!drawn) return [];
      const pace = Math.exp(PACE_LOG_SD * normalQuantile(evenNumber(w, PACE_STREAM + i)));
      return [{ course: drawn.course, knownTo: fit.now.day, pace, clean: series.clean }];
    });
  });
}

/**
 * How the errors of two neighbouring stages go together: the gauge between them, read too high, takes from the one what it
 * gives to the other; a flow told too small makes both too large. By the latest points.
 */
function correlation(one: StageLoading | undefined, other: StageLoading): number {
  if (!one?.fit || one.series.to !== other.series.from) return 0;
  const [a, b] = [one.series.points.at(-1), other.series.points.at(-1)];
  if (!a || !b || a.day !== b.day) return 0;
  const flows = [one, other].map(({ fit }, i) => {
    const point = i === 0 ? a : b;
    return point.uByFlow * ((fit?.now.resistance ?? 0) + point.housings);
  });
  const [flowA = 0, flowB = 0] = flows;
  // Of the two gauges of each stage, alike in error, they share one.
  const covariance = flowA * flowB - (a.uByDrop * b.uByDrop) / 2;
  return covariance / (Math.hypot(flowA, a.uByDrop) * Math.hypot(flowB, b.uByDrop));
}

/** Resistance of a stage on a day, its pace ahead scaled. */
function ahead(path: Path, day: number): number {
  const later = day - path.knownTo;
  const paced = path.knownTo + (later > 0 ? later * path.pace : later);
  return resistanceOn(path.course, paced);
}

/** First change of every stage in one world; Infinity past the horizon. */
function firstChanges(
  paths: (Path | null)[],
  stages: readonly StageLoading[],
  limit: number,
  horizon: number,
): number[] {
  const first = paths.map(() => Number.POSITIVE_INFINITY);
  const still = paths.map((path, i) => (path ? null : (stages[i]?.series.clean ?? 0)));
  let paced = paths;
  let now = Math.min(...paths.map((path) => path?.course.t0 ?? Number.POSITIVE_INFINITY));
  for (let change = 0; change < MOST_CHANGES; change++) {
    const total = (day: number) =>
      paced.reduce((sum, path, i) => sum + (path ? ahead(path, day) : (still[i] ?? 0)), 0);
    const day = dayOfTotal(paced, total, limit, now, horizon);
    if (!(day <= horizon)) break;
    const worst = mostGrown(paced, day);
    if (worst < 0) break;
    if (first[worst] === Number.POSITIVE_INFINITY) first[worst] = day;
    if (first.every((one, i) => Number.isFinite(one) || !paced[i])) break;
    paced = paced.map((path, i) => (i === worst && path ? renewed(path, day) : path));
    now = day;
  }
  return first;
}

function dayOfTotal(
  paths: readonly (Path | null)[],
  total: (day: number) => number,
  limit: number,
  now: number,
  horizon: number,
): number {
  const alone = paths.filter((path) => path !== null);
  const [only] = alone;
  if (alone.length === 1 && only) {
    const rest = limit - (total(now) - ahead(only, now));
    const day = dayReached(only.course, Math.max(rest, 1e-9));
    const later = day - only.knownTo;
    return Math.max(now, later > 0 ? only.knownTo + later / only.pace : day);
  }
  if (total(now) >= limit) return now;
  if (total(horizon) < limit) return Number.POSITIVE_INFINITY;
  let [low, high] = [now, horizon];
  while (high - low > 0.1) {
    const middle = (low + high) / 2;
    if (total(middle) < limit) low = middle;
    else high = middle;
  }
  return high;
}

/** The stage whose change gives back most. */
function mostGrown(paths: readonly (Path | null)[], day: number): number {
  let worst = -1;
  let most = 0;
  paths.forEach((path, i) => {
    const grown = path ? ahead(path, day) - path.clean : 0;
    if (grown > most) [worst, most] = [i, grown];
  });
  return worst;
}

/** The same stage with a new cartridge: it loads again as it did since it was clean. */
function renewed(path: Path, day: number): Path {
  const { still, t0, r0, t1, r1 } = path.course;
  const lasted = t1 - t0;
  const began = Math.min(r0, path.clean, r1 - 0.01 * (r1 - still));
  return {
    ...path,
    knownTo: day,
    course: { ...path.course, t0: day, r0: began, t1: day + lasted },
  };
}
