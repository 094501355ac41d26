import { createHmac } from 'node:crypto';
import { createMiddleware } from 'hono/factory';
import { countOne, takeBackOne } from '../../store/repositories/rate-counts.ts';
import { clientAddress } from '../client-address.ts';
import type { AppEnv, Deps } from '../deps.ts';
import { Problem } from '../problem.ts';

const WINDOW_S = 600;

type LimitDeps = Pick<Deps, 'store' | 'clock' | 'secret' | 'trustProxy'>;

/** Allows `limit` requests in ten minutes from one address, counted in the store so that all servers count together. */
export const rateLimit = (deps: LimitDeps, { name, limit }: { name: string; limit: number }) =>
  createMiddleware<AppEnv>(async function limited(c, next) {
    await countOrRefuse(deps, `${name} ${clientAddress(c, deps.trustProxy)}`, limit);
    await next();
  });

/**
 * Counts one use of `what` and throws a 429 problem past the limit. Only a keyed hash of it is stored. What is returned
 * takes this one back: where only failures are to count, they are counted before they are known, or many tries sent at
 * once would all be let through.
 */
export async function countOrRefuse(
  { store, clock, secret }: LimitDeps,
  what: string,
  limit: number,
): Promise<() => Promise<void>> {
  const nowS = Math.floor(clock().getTime() / 1000);
  const key = createHmac('sha256', secret).update(what).digest('base64url');
  const { count, untilS } = await countOne(store.db, key, WINDOW_S, nowS);
  if (count <= limit) return () => takeBackOne(store.db, key, untilS);
  const waitS = Math.max(1, untilS - nowS);
  throw new Problem(
    429,
    `Too many for now; try again in ${Math.ceil(waitS / 60)} min.`,
    'too-many',
    { retryAfterS: waitS },
  );
}
