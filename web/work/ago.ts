const MINUTES_AN_HOUR = 60;
const HOURS_A_DAY = 24;
/** Hours are told up to two days, days after that. */
const DAYS_IN_HOURS = 2;

const minutesSince = (at: string, now: Date): number =>
  Math.max(0, (now.getTime() - Date.parse(at)) / 60_000);

/** How long ago something was: "this minute", "40 minutes ago", "3 hours ago", "2 days ago". */
export function agoText(at: string, now: Date, language: string): string {
  const ago = new Intl.RelativeTimeFormat(language, { numeric: 'auto' });
  const minutes = minutesSince(at, now);
  const hours = minutes / MINUTES_AN_HOUR;
  if (hours < 1) return ago.format(-Math.floor(minutes), 'minute');
  if (hours < DAYS_IN_HOURS * HOURS_A_DAY) return ago.format(-Math.floor(hours), 'hour');
  return ago.format(-Math.floor(hours / HOURS_A_DAY), 'day');
}

/** So long beyond what a step takes may pass without a tick before somebody asks whether all is well. */
const QUIET_MINUTES = 30;

export const isQuiet = (at: string, now: Date, stepMinutes: number): boolean =>
  minutesSince(at, now) > stepMinutes + QUIET_MINUTES;
