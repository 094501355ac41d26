import { loadUpkeepRules, type UpkeepRules } from '../../shared/upkeep/rules.ts';
import { latestRuleSet } from './read.ts';

/** The upkeep tables of the newest rule set that came with the program. */
export function latestUpkeepRules(): UpkeepRules {
  const { ruleSet, files } = latestRuleSet();
  return loadUpkeepRules(files, ruleSet);
}
