import { createMiddleware } from 'hono/factory';
import type { AppEnv } from '../deps.ts';
import { parseJsonBody } from '../json-body.ts';
import { Problem } from '../problem.ts';

/** Refuses a body that is not JSON, says it is not, or is nested past sense, before any schema looks at it. */
export const jsonBodies = createMiddleware<AppEnv>(async function jsonOnly(c, next) {
  if (!['GET', 'HEAD'].includes(c.req.method)) {
    const body = await c.req.text();
    if (body !== '') {
      const type = c.req.header('content-type') ?? '';
      if (!/^application\/json\s*(;|$)/i.test(type))
        throw new Problem(415, 'Send the body as application/json.');
      parseJsonBody(body);
    }
  }
  await next();
});
