const two = (n: number): string => String(Math.trunc(Math.abs(n))).padStart(2, '0');

/** The calendar day where the person is: "2026-11-25". */
export function localDay(date: Date): string {
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** RFC 3339 with the offset of the place, so that the day in it is the day at the plant. */
export function localTime(date: Date): string {
  const minutes = -date.getTimezoneOffset();
  const offset = `${minutes < 0 ? '-' : '+'}${two(minutes / 60)}:${two(minutes % 60)}`;
  const clock = `${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
  return `${localDay(date)}T${clock}${offset}`;
}
