import { createHash } from 'node:crypto';
import { InputError } from '../../../shared/common/errors.ts';
import { named } from '../../../shared/common/named.ts';
import { siUnits } from '../../../shared/ruleset/figures.ts';
import { calendarText } from '../../../shared/upkeep/calendar.ts';
import { outlookOf } from '../../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../../shared/upkeep/history.ts';
import { reportOf } from '../../../shared/upkeep/report.ts';
import { loadUpkeepRules } from '../../../shared/upkeep/rules.ts';
import { latestRuleSet } from '../../rules/read.ts';
import type { Deps } from '../deps.ts';
import { readPlant } from './plants.ts';

/** A plant's due dates as of today, as an iCalendar text. */
export type PlantDates = (ref: string, language: string) => Promise<string>;

/** Dates by the newest rule set, which is read when it is first needed. */
export function createPlantDates(deps: Pick<Deps, 'store' | 'clock'>): PlantDates {
  let kept: ReturnType<typeof tables> | undefined;
  return async (ref, language) => {
    kept ??= tables();
    const { ruleSet, words, rules } = kept;
    const spoken = named(words, language);
    if (!spoken) {
      const there = Object.keys(words).join(', ');
      throw new InputError('language', `no words in "${language}"; those there: ${there}`);
    }
    const today = deps.clock().toISOString().slice(0, 10);
    const upkeep = parseUpkeep(
      { ...(await readPlant(deps, ref)), today },
      ruleSet,
      today,
      'left-out',
    );
    // A link says its language, and nothing of units.
    const units = { ...siUnits, language };
    const report = reportOf(outlookOf(upkeep, rules), rules, ruleSet, spoken, units);
    // The reference stays on the server: a calendar is passed on more easily than a link.
    const plantId = createHash('sha256').update(ref).digest('hex').slice(0, 24);
    return calendarText(upkeep.plant.name, report, spoken, plantId);
  };
}

function tables() {
  const { ruleSet, words, files } = latestRuleSet();
  return { ruleSet, words, rules: loadUpkeepRules(files, ruleSet) };
}
