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
  row: Pick<CaseRow, 'ref' | 'plant_ref' | 'version'>,
  from: CaseState | null,
  to: CaseState,
  view: View,
  now: string,
  closedHow: string | null = null,
): Promise<void> {
  if (!webhook || from === to) return;
  const version = from === null ? 0 : row.version + 1; // the row is as it was before this change
  const body = JSON.stringify(webhookMessage(row, version, from, to, view, now, closedHow));
  const message = { id: `msg_${newRef()}`, case_ref: row.ref, case_version: version, body };
  await insertDelivery(trx, message, now);
}
