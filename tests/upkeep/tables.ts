import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { loadUpkeepRules } from '../../shared/upkeep/rules.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

/** The shipped tables and words, read once for all tests of upkeep. */
const { ruleSet, files, words } = latestRuleSet();

export { files, ruleSet };
export const rules = loadUpkeepRules(files, ruleSet);
const { en } = words;
if (!en) throw new Error('the rule set speaks English');
export const english = en;

export const parsed = (record: unknown) => parseUpkeep(record, ruleSet, '2026-11-25');
export { siUnits } from '../../shared/ruleset/figures.ts';
export const outlook = (record: unknown) => outlookOf(parsed(record), rules);
