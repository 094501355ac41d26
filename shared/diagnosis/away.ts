import type { Audience } from '../case/answer.ts';
import type { Facts } from '../case/facts.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { isGiven } from './condition.ts';

/**
 * Whether an agent speaks with somebody who is not at the plant. It is a fact of the call: whoever answers for themselves,
 * or was sent, is where they are.
 */
export function isAway(facts: Facts, rules: RuleSet, audience: Audience): boolean {
  if (audience !== 'agent' || !rules.head.caller) return false;
  const { question, away } = rules.head.caller;
  return isGiven({ question, oneOf: [away] }, facts, rules);
}
