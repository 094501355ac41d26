import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { reportOf } from '../../shared/upkeep/report.ts';
import type { UpkeepRules } from '../../shared/upkeep/rules.ts';
import type { Loaded } from './cards.ts';
import type { CaseNow, PlantRecord, ShownDue } from './protocol.ts';

/** Due dates of a plant from its record. Throws an InputError for what cannot be used. */
export function dueOf(
  { rules, words }: Loaded,
  tables: UpkeepRules,
  now: CaseNow,
  record: PlantRecord,
): ShownDue {
  const upkeep = parseUpkeep({ plant: now.plant, ...record, today: now.day }, rules, now.day);
  const report = reportOf(outlookOf(upkeep, tables), tables, rules, words);
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
