import type { CaseRow, CaseState, Priority } from '../../store/tables.ts';
import type { View } from '../judge.ts';
import { leadingCause } from './views.ts';

/** What a call centre's own system is told when a case changes state: no answers, no person, no link. */
export interface WebhookMessage {
  readonly type: 'case.state-changed';
  readonly timestamp: string;
  readonly data: {
    readonly case: string;
    readonly plant: string | null;
    /** grows with every change of the case: a message with a smaller one than seen before is old */
    readonly version: number;
    readonly from: CaseState | null;
    readonly to: CaseState;
    readonly closedHow: string | null;
    readonly leadingCause: string | null;
    readonly dispatch: string;
    readonly priority: Priority;
    readonly ruleSet: string;
  };
}

export interface StateChange {
  readonly row: Pick<CaseRow, 'ref' | 'plant_ref'>;
  /** the case's version with the change in it */
  readonly version: number;
  /** null: the case was opened */
  readonly from: CaseState | null;
  readonly to: CaseState;
  readonly view: View;
  readonly now: string;
  readonly closedHow?: string;
}

export function webhookMessage(change: StateChange): WebhookMessage {
  const { row, version, from, to, view, now, closedHow = null } = change;
  return {
    type: 'case.state-changed',
    timestamp: now,
    data: {
      case: row.ref,
      plant: row.plant_ref,
      version,
      from,
      to,
      closedHow,
      leadingCause: leadingCause(view),
      dispatch: view.dispatch.decision,
      priority: view.dispatch.priority,
      ruleSet: view.ruleSet,
    },
  };
}
