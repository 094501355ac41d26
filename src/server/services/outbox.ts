import { insertDelivery } from '../../store/repositories/deliveries.ts';
import type { Trx } from '../../store/store.ts';
import type { Deps } from '../deps.ts';
import { type StateChange, webhookMessage } from './webhook-message.ts';

/** Writes the message of a changed state within the same transaction, so that neither is stored without the other. */
export async function tellStateChange(
  { webhook, newRef }: Pick<Deps, 'webhook' | 'newRef'>,
  trx: Trx,
  change: StateChange,
): Promise<void> {
  if (!webhook || change.from === change.to) return;
  const body = JSON.stringify(webhookMessage(change));
  const { row, version, now } = change;
  await insertDelivery(
    trx,
    { id: `msg_${newRef()}`, case_ref: row.ref, case_version: version, body },
    now,
  );
}
