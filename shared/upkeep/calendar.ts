import ical, { ICalCalendarMethod, ICalEventTransparency } from 'ical-generator';
import { say } from '../diagnosis/say.ts';
import type { Words } from '../ruleset/words.ts';
import type { DueReport } from './report.ts';

const DAY_MS = 86_400_000;

/**
 * The due dates of one plant as an iCalendar text (RFC 5545): whole days that block nobody's time, with the reason and
 * the interval. The same report gives the same bytes, and a date that moves keeps its UID, so a calendar moves it too.
 *
 * @param plantId what tells this plant's dates from those of others in one calendar; left out: its name
 */
export function calendarText(
  plantName: string,
  report: DueReport,
  words: Words,
  plantId = slug(plantName),
): string {
  const calendar = ical({
    name: escaped(say(words, 'due-calendar', { name: plantName })),
    prodId: { company: 'gaugewalk', product: 'upkeep', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
  });
  const stamp = new Date(`${report.today}T00:00:00Z`);
  for (const entry of report.due) {
    const start = new Date(`${entry.on}T00:00:00Z`);
    const interval =
      entry.from === entry.to
        ? ''
        : `\n${say(words, 'due-column-between')} ${entry.from} – ${entry.to}`;
    calendar.createEvent({
      id: `${plantId}.${entry.part}.${entry.because}@gaugewalk.invalid`,
      stamp,
      start,
      end: new Date(start.getTime() + DAY_MS),
      allDay: true,
      transparency: ICalEventTransparency.TRANSPARENT,
      summary: say(words, `due-event-${entry.because}`, { name: plantName, part: entry.part }),
      description: `${entry.text}${interval}`,
    });
  }
  // RFC 5545, 3.1 ends every content line by CRLF, the last one too.
  return `${calendar.toString()}\r\n`;
}

/** A calendar's name as a text value (RFC 5545, 3.3.11): the library escapes those of events only. */
function escaped(text: string): string {
  return text.replaceAll(/[\\;,]/g, '\\$&').replaceAll(/\r\n|[\r\n]/g, '\\n');
}

/** A plant's name as part of an identifier: letters and digits of any script, the rest as hyphens. */
function slug(name: string): string {
  return name
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '');
}
