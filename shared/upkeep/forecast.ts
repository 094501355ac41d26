import { type Course, dayReached, resistanceOn } from './laws.ts';
import type { StageLoading } from './loading.ts';
import { evenDraws, evenNumber, normalQuantile, quantileOf, shuffled } from './sampling.ts';

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

/** Tell the draws of the pace, of kept errors and of the limit from those of the stages. */
const PACE_STREAM = 500;
const KEPT_STREAM = 700;
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
  /** what the gauges' kept errors make the readings too small by, Pa/(m³/s) */
  readonly shift: number;
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
  const worlds = stages.map((stage, i) => pathsOf(stage, i));
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

function pathsOf(stage: StageLoading, stream: number): Path[] | null {
  const { fit, series } = stage;
  if (!fit) return null;
  const courses = [...fit.courses].sort((a, b) => a.course.r1 - b.course.r1);
  const draws = evenDraws(courses, ({ weight }) => weight, DRAWS);
  const order = shuffled(DRAWS, stream);
  return order.flatMap((from, w) => {
    const drawn = draws[from];
    if (!drawn) return [];
    const pace = Math.exp(PACE_LOG_SD * normalQuantile(evenNumber(w, PACE_STREAM + stream)));
    const shift = series.keptU * normalQuantile(evenNumber(w, KEPT_STREAM + stream));
    return [{ course: drawn.course, knownTo: fit.now.day, pace, shift, clean: series.clean }];
  });
}

/** Resistance of a stage on a day, its pace ahead scaled. */
function ahead(path: Path, day: number): number {
  const later = day - path.knownTo;
  const paced = path.knownTo + (later > 0 ? later * path.pace : later);
  return Math.max(0, resistanceOn(path.course, paced) + path.shift);
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
    const day = dayReached(only.course, Math.max(rest - only.shift, 1e-9));
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
  const { exponent, power, t0, r0, t1, r1 } = path.course;
  const lasted = t1 - t0;
  const began = Math.min(r0, path.clean, 0.99 * r1);
  return {
    ...path,
    knownTo: day,
    shift: 0,
    course: { exponent, power, t0: day, r0: began, t1: day + lasted, r1 },
  };
}
