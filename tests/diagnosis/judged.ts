import { factsOf } from '../../shared/case/facts.ts';
import { type Judgement, judge } from '../../shared/diagnosis/judge.ts';
import { type Worlds, worldsOf } from '../../shared/diagnosis/worlds.ts';
import { DAY, ruleSet } from './rules.ts';

export type Answers = readonly { readonly question: string; readonly value: unknown }[];

/** A case judged under the newest rule set, with the worlds that are still likely. */
export function judged(plant: unknown, answers: Answers): { judgement: Judgement; worlds: Worlds } {
  const judgement = judge(factsOf(plant, answers, ruleSet, { system: DAY }), ruleSet);
  return { judgement, worlds: worldsOf(judgement) };
}
