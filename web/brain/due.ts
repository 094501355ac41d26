import { calendarText } from '../../shared/upkeep/calendar.ts';
import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { type DueReport, reportOf } from '../../shared/upkeep/report.ts';
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
  const report = reportIn(loaded, tables, now, record);
  return {
    due: report.due,
    remarks: report.remarks,
    buy: report.buy.map(({ by, part, items }) => ({
      by,
      part,
      items: items.map((id) => words.van[id] ?? id),
    })),
  };
}

/** The same dates as an iCalendar file (RFC 5545), as `gaugewalk due --ics` writes it. */
export function calendarOf(
  loaded: Loaded,
  tables: UpkeepRules,
  now: CaseNow,
  record: PlantRecord,
): string {
  return calendarText(now.plant.name, reportIn(loaded, tables, now, record), loaded.words);
}

function reportIn(
  { rules, words }: Loaded,
  tables: UpkeepRules,
  { plant, day }: CaseNow,
  record: PlantRecord,
): DueReport {
  const upkeep = parseUpkeep({ plant, ...record, today: day }, rules, day);
  return reportOf(outlookOf(upkeep, tables), tables, rules, words);
}
