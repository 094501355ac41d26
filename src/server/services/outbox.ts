import { insertDelivery } from '../../store/repositories/deliveries.ts';
import type { Trx } from '../../store/store.ts';
import type { CaseRow, CaseState } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { View } from '../judge.ts';
import { webhookMessage } from './webhook-message.ts';

/** Writes the message of a changed state within the same transaction, so that neither is stored without the other. */
export async function tellStateChange(
  { webhook, newRef }: Pick<Deps, 'webhook' | 'newRef'>,
  trx: Trx,
  row: Pick<CaseRow, 'ref' | 'plant_ref'>,
  from: CaseState | null,
  to: CaseState,
  view: View,
  now: string,
  closedHow: string | null = null,
): Promise<void> {
  if (!webhook || from === to) return;
  const body = JSON.stringify(webhookMessage(row, from, to, view, now, closedHow));
  await insertDelivery(trx, { id: `msg_${newRef()}`, case_ref: row.ref, body }, now);
}
