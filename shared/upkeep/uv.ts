import type { WaterTest } from '../case/values.ts';
import { solveLine } from '../hydraulics/line.ts';
import { m3sToLpm } from '../hydraulics/units.ts';
import { uvDoseMjCm2 } from '../hydraulics/uv.ts';
import type { ResolvedOf } from '../plant/defaults.ts';
import { DAYS_PER_YEAR, dayNumber } from './days.ts';
import { daysOfWork, type Upkeep } from './history.ts';
import type { UpkeepRules } from './rules.ts';

type Uv = ResolvedOf<'uv'>;

/** A lamp's burning: hours on a day, and how many a day it goes on with. */
export interface LampClock {
  readonly day: number;
  readonly hours: number;
  readonly perDay: number;
  readonly lifeH: number;
  /** the hours were counted, not reckoned from the day it was fitted */
  readonly counted: boolean;
}

/** Hours by the last count since the lamp was new, else so many a day since it was fitted; null: nobody knows its age. */
export function lampClock(upkeep: Upkeep, rules: UpkeepRules, uv: Uv): LampClock | null {
  const { job, hours, hoursPerDay } = rules.lamp;
  const lifeH = uv.lampLifeH ?? hours;
  const days = daysOfWork(upkeep.done, [job], uv.id);
  if (uv.lampFittedOn) days.push(dayNumber(uv.lampFittedOn));
  const fitted = days.sort((a, b) => a - b).at(-1);
  const counts = upkeep.answers.flatMap(({ day, kind, value }) =>
    kind === 'hours' && (fitted === undefined || day >= fitted)
      ? [{ day, hours: Number(value) }]
      : [],
  );
  const last = counts.at(-1);
  if (last) return { ...last, perDay: perDayOf(counts, hoursPerDay), lifeH, counted: true };
  if (fitted === undefined) return null;
  return { day: fitted, hours: 0, perDay: hoursPerDay, lifeH, counted: false };
}

/** Two counts a week or more apart tell the hours of a day; one does not. */
function perDayOf(
  counts: readonly { readonly day: number; readonly hours: number }[],
  usual: number,
): number {
  const [first, last] = [counts[0], counts.at(-1)];
  if (!first || !last || last.day - first.day < 7) return usual;
  const perDay = (last.hours - first.hours) / (last.day - first.day);
  return perDay > 0 ? Math.min(24, perDay) : usual;
}

export const lampEnds = (clock: LampClock): number =>
  clock.day + (clock.lifeH - clock.hours) / clock.perDay;

/** The dose over time, for the largest flow that the house's need can draw. */
export interface DoseCourse {
  readonly flowLpm: number;
  readonly neededMjCm2: number;
  readonly uvtPercent: number;
  /** @param sleeveTimes how fast the sleeve fouls against the table's figure */
  doseOn(day: number, sleeveTimes?: number): number;
}

/** Null where the unit's rated dose or flow, or its lamp's age, is not known. */
export function doseCourse(upkeep: Upkeep, rules: UpkeepRules, uv: Uv): DoseCourse | null {
  const clock = lampClock(upkeep, rules, uv);
  const { ratedDoseMjCm2, ratedFlowLpm } = uv;
  if (!clock || ratedDoseMjCm2 === null || ratedFlowLpm === null) return null;
  const neededMjCm2 = rules.dose.classesMjCm2.find((dose) => dose <= ratedDoseMjCm2);
  if (neededMjCm2 === undefined) return null;
  const { line } = upkeep;
  const flowLpm = m3sToLpm(solveLine(line, { open: line.house.need.open }).flowM3s);
  const uvtPercent = testedUvt(upkeep) ?? rules.dose.uvtPercent;
  const cleaned = daysOfWork(upkeep.done, rules.dose.sleeveJobs, uv.id).at(-1) ?? clock.day;
  const doseOn = (day: number, sleeveTimes = 1) => {
    const years = Math.max(0, day - cleaned) / DAYS_PER_YEAR;
    return uvDoseMjCm2({
      ratedDoseMjCm2,
      ratedFlowLpm,
      flowLpm,
      lampHours: clock.hours + (day - clock.day) * clock.perDay,
      lampLifeH: clock.lifeH,
      uvtPercent,
      sleeve: Math.max(0, 1 - sleeveTimes * rules.dose.sleeveLossPerYear * years),
    });
  };
  return { flowLpm, neededMjCm2, uvtPercent, doseOn };
}

function testedUvt(upkeep: Upkeep): number | undefined {
  const tests = upkeep.answers.filter(({ kind }) => kind === 'water-test');
  return tests
    .map(({ value }) => (value as WaterTest).uvtPercent)
    .findLast((percent) => percent !== undefined);
}

/** First day from `start` on which the dose is under what is needed; null: not up to the horizon. */
export function doseFails(
  course: DoseCourse,
  start: number,
  horizon: number,
  sleeveTimes: number,
): number | null {
  const fails = (day: number) => course.doseOn(day, sleeveTimes) < course.neededMjCm2;
  if (fails(start)) return start;
  if (!fails(horizon)) return null;
  let [low, high] = [start, horizon];
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (fails(middle)) high = middle;
    else low = middle;
  }
  return high;
}
