import { dangersUnknown } from './cautions.ts';
import { isGiven } from './condition.ts';
import type { Judgement } from './judge.ts';
import type { Dispatch } from './result.ts';

export interface Priority {
  readonly priority: Dispatch['priority'];
  /** the questions whose answers made it so; none where it is normal */
  readonly because: readonly string[];
}

/** How soon a case is to be seen to, and which answers say so. */
export function priorityOf(judged: Pick<Judgement, 'facts' | 'rules'>): Priority {
  const { facts, rules } = judged;
  const told = (
    rows: readonly { readonly question: string; readonly oneOf: readonly string[] }[],
  ) => rows.filter((row) => isGiven(row, facts, rules)).map(({ question }) => question);
  const urgent = told(rules.head.urgent);
  if (urgent.length > 0) return { priority: 'urgent', because: urgent };
  // who cannot say whether there is danger does not wait in line
  const soon = [...told(rules.head.soon), ...dangersUnknown(judged)];
  return { priority: soon.length > 0 ? 'soon' : 'normal', because: soon };
}
