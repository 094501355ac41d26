import type { Answer } from '../case/answer.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import { optionsOf } from './form.ts';
import type { Option } from './match.ts';

/** The question whose answers are the rule set's danger signs. */
export function dangerQuestion(rules: RuleSet): string {
  const found = Object.entries(rules.questions).find(
    ([, { answers }]) => answers.length > 0 && answers.every((id) => rules.dangers[id]),
  );
  if (!found) throw new Error('the rule set has no question about danger signs');
  return found[0];
}

/** The danger signs as they are spoken. */
export function dangerSigns(rules: RuleSet, words: Words): Option[] {
  return optionsOf(dangerQuestion(rules), Object.keys(rules.dangers), words);
}

/** Whether the latest word on danger names a sign: then nothing is asked and nothing is done before it is made safe. */
export function standsStopped(answers: readonly Answer[], rules: RuleSet): boolean {
  const danger = dangerQuestion(rules);
  const latest = answers.findLast(({ question }) => question === danger)?.value;
  return Array.isArray(latest) && latest.length > 0;
}
