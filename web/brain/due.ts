import { calendarText } from '../../shared/upkeep/calendar.ts';
import { type Outlook, outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { pressurePicture } from '../../shared/upkeep/pictures/pressure.ts';
import { pumpPicture } from '../../shared/upkeep/pictures/pump.ts';
import { resistancePicture } from '../../shared/upkeep/pictures/resistance.ts';
import { reportOf } from '../../shared/upkeep/report.ts';
import type { UpkeepRules } from '../../shared/upkeep/rules.ts';
import type { Loaded } from './cards.ts';
import type { CaseNow, PlantRecord, ShownDue } from './protocol.ts';

/** Due dates of a plant from its record. Throws an InputError for what cannot be used. */
export function dueOf(
  loaded: Loaded,
  tables: UpkeepRules,
  now: CaseNow,
  record: PlantRecord,
): ShownDue {
  const { words } = loaded;
  const outlook = outlookIn(loaded, tables, now, record);
  const report = reportOf(outlook, tables, loaded.rules, words, now.units);
  return {
    due: report.due,
    remarks: report.remarks,
    buy: report.buy.map(({ by, part, items }) => ({
      by,
      part,
      items: items.map((id) => words.van[id] ?? id),
    })),
    pictures: [
      ...outlook.stages.map((_, stage) => resistancePicture(outlook, stage, words, now.units)),
      pressurePicture(outlook.upkeep, tables, words, now.units),
      pumpPicture(outlook, words, now.units),
    ].filter((picture) => picture !== null),
  };
}

/** The same dates as an iCalendar file (RFC 5545), as `gaugewalk due --ics` writes it. */
export function calendarOf(
  loaded: Loaded,
  tables: UpkeepRules,
  now: CaseNow,
  record: PlantRecord,
): string {
  const { rules, words } = loaded;
  const outlook = outlookIn(loaded, tables, now, record);
  const report = reportOf(outlook, tables, rules, words, now.units);
  return calendarText(now.plant.name, report, words);
}

function outlookIn(
  { rules }: Loaded,
  tables: UpkeepRules,
  { plant, day }: CaseNow,
  record: PlantRecord,
): Outlook {
  return outlookOf(parseUpkeep({ plant, ...record, today: day }, rules, day, 'left-out'), tables);
}
