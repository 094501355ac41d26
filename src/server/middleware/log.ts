import { randomUUID } from 'node:crypto';
import { createMiddleware } from 'hono/factory';
import { routePath } from 'hono/route';
import type { AppEnv, Deps } from '../deps.ts';

/**
 * One line and one count per request, with the route's pattern and never its address: links are in addresses. No
 * person, no network address, no body.
 */
export const log = ({ log: logger, metrics }: Pick<Deps, 'log' | 'metrics'>) =>
  createMiddleware<AppEnv>(async function logged(c, next) {
    const started = performance.now();
    const requestId = randomUUID();
    c.set('requestId', requestId);
    await next();
    c.header('x-request-id', requestId);
    const { method } = c.req;
    const route = c.res.status === 404 ? 'none' : routePath(c);
    const ms = Math.round(performance.now() - started);
    metrics.requests.inc({ method, route, status: c.res.status });
    metrics.seconds.observe({ method, route }, ms / 1000);
    const level = c.res.status >= 500 ? 'error' : 'info';
    logger[level]({ requestId, method, route, status: c.res.status, ms }, 'request');
  });
