import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

/** The newest rule set, read once for all diagnosis tests. */
const { ruleSet, words } = latestRuleSet();

export { ruleSet };

export const DAY = '2026-11-25';

const english = () => {
  const en = words.en;
  if (!en) throw new Error('the rule set has no English words');
  return en;
};

export const judgeCase = (
  plant: unknown,
  answers: readonly { question: string; value: unknown }[],
) => diagnose({ plant, answers }, ruleSet, english(), DAY);

export const chanceOf = (result: ReturnType<typeof judgeCase>, cause: string): number =>
  result.causes.find((c) => c.id === cause)?.probability ?? 0;
