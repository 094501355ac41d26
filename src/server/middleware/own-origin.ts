import { createMiddleware } from 'hono/factory';
import type { AppEnv } from '../deps.ts';
import { Problem } from '../problem.ts';

/**
 * Refuses changes a foreign page makes with somebody's session. Browsers send `Origin` with every such request;
 * programs that send none have no session to borrow.
 */
export const ownOrigin = (publicUrl: string) =>
  createMiddleware<AppEnv>(async function ownOriginOnly(c, next) {
    const origin = c.req.header('origin');
    const own = [new URL(publicUrl).origin, new URL(c.req.url).origin];
    if (!['GET', 'HEAD'].includes(c.req.method) && origin !== undefined && !own.includes(origin)) {
      throw new Problem(
        403,
        'This came from another site. Behind a proxy with TLS, set PUBLIC_URL to the address people see.',
        'foreign-origin',
      );
    }
    await next();
  });
