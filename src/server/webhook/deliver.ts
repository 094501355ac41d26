import type { Logger } from 'pino';
import {
  dropOldDeliveries,
  markDelivered,
  markFailed,
  takeDue,
} from '../../store/repositories/deliveries.ts';
import type { Store } from '../../store/store.ts';
import type { DeliveryRow } from '../../store/tables.ts';
import type { Metrics } from '../metrics.ts';
import { signedHeaders } from './sign.ts';

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;
const ANSWER_WITHIN = 15 * SECOND;
/** longer than an answer may take, so that no second server takes the same message */
const HOLD = MINUTE;
const KEEP = 30 * 24 * HOUR;

/** When to try again after the first, second, … failure; after the last the message is given up. */
export const RETRY_AFTER_MS = [
  5 * SECOND,
  MINUTE,
  5 * MINUTE,
  30 * MINUTE,
  2 * HOUR,
  8 * HOUR,
  24 * HOUR,
] as const;

export interface WebhookDeps {
  readonly store: Store;
  readonly log: Logger;
  readonly metrics: Metrics;
  readonly clock: () => Date;
  readonly url: string;
  readonly secret: string;
  readonly fetch: typeof fetch;
  /** when the server stops, the message under way is the last */
  readonly stopping: AbortSignal;
}

/** Sends every message that is due and returns how many were tried. Any server may do this; each message goes once. */
export async function deliverDue(deps: WebhookDeps): Promise<number> {
  const { store, clock, stopping } = deps;
  for (let tried = 0; ; tried += 1) {
    const now = clock();
    const due = stopping.aborted
      ? undefined
      : await takeDue(store.db, now.toISOString(), later(now, HOLD));
    if (!due) {
      await dropOldDeliveries(store.db, later(now, -KEEP));
      return tried;
    }
    await deliver(deps, due, now);
  }
}

async function deliver(deps: WebhookDeps, row: DeliveryRow, now: Date): Promise<void> {
  const { store, log, metrics } = deps;
  const problem = await send(deps, row, now);
  if (problem === undefined) {
    metrics.deliveries.inc({ outcome: 'delivered' });
    return markDelivered(store.db, row.id, deps.clock().toISOString());
  }
  const wait = RETRY_AFTER_MS[row.attempts - 1];
  metrics.deliveries.inc({ outcome: wait === undefined ? 'given up' : 'failed' });
  log.warn({ delivery: row.id, attempts: row.attempts, problem }, 'webhook not delivered');
  await markFailed(
    store.db,
    row.id,
    wait === undefined ? { givenUpAt: now.toISOString() } : { tryAt: later(now, wait) },
  );
}

/** Undefined when it was received, else what went wrong. */
async function send(
  { url, secret, fetch }: WebhookDeps,
  row: DeliveryRow,
  now: Date,
): Promise<string | undefined> {
  try {
    const response = await fetch(url, {
      method: 'POST',
      redirect: 'error',
      headers: {
        'content-type': 'application/json',
        ...signedHeaders(secret, row.id, now, row.body),
      },
      body: row.body,
      signal: AbortSignal.timeout(ANSWER_WITHIN),
    });
    await response.body?.cancel();
    return response.ok ? undefined : `status ${response.status}`;
  } catch (error) {
    return error instanceof Error ? error.name : 'failed';
  }
}

const later = (from: Date, ms: number): string => new Date(from.getTime() + ms).toISOString();
