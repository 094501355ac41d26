import type { Day } from '../case/answer.ts';

/** Calendar days as numbers, so that dates can be reckoned with; day 0 is 1970-01-01, parts of a day its hours. */

const DAY_MS = 86_400_000;
export const DAYS_PER_YEAR = 365.25;
export const DAYS_PER_MONTH = DAYS_PER_YEAR / 12;

/** The day that stands for "no end can be told": an interval may have none. */
export const NO_END: Day = '2999-12-31';

/** Number of a calendar day, or of the day of a time as written. */
export function dayNumber(at: string): number {
  return Math.round(Date.parse(at.slice(0, 10)) / DAY_MS);
}

/**
 * The moment of an entry, in days: a time as written, by its own clock; a plain day counts as `without` of the day.
 * @param without share of the day taken where no time is written
 */
export function momentOf(at: string, without: number): number {
  const clock = /T(\d\d):(\d\d)/.exec(at);
  const share = clock ? (Number(clock[1]) * 60 + Number(clock[2])) / 1440 : without;
  return dayNumber(at) + share;
}

/** The calendar day of a moment. */
export function dayOf(moment: number): Day {
  return new Date(Math.floor(moment) * DAY_MS).toISOString().slice(0, 10);
}

/** The same day of the month some months later; the month's last day where it has no such day. */
export function addMonths(day: number, months: number): number {
  const date = new Date(day * DAY_MS);
  const whole = Math.floor(months);
  const target = date.getUTCFullYear() * 12 + date.getUTCMonth() + whole;
  const lastDay = new Date(Date.UTC(Math.floor(target / 12), (target % 12) + 1, 0)).getUTCDate();
  const moved = Date.UTC(
    Math.floor(target / 12),
    target % 12,
    Math.min(date.getUTCDate(), lastDay),
  );
  return Math.round(moved / DAY_MS + (months - whole) * DAYS_PER_MONTH);
}
