import type { Audience } from '../case/answer.ts';
import type { Facts } from '../case/facts.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { holds } from './condition.ts';

/**
 * Whether an agent speaks with somebody who is not at the plant. It is a fact of the call: whoever answers for themselves,
 * or was sent, is where they are.
 */
export function isAway(facts: Facts, { head }: RuleSet, audience: Audience): boolean {
  if (audience !== 'agent' || !head.caller) return false;
  const { question, away } = head.caller;
  return holds({ answered: { question, oneOf: [away] } }, facts);
}
