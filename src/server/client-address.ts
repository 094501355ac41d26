import type { HttpBindings } from '@hono/node-server';
import type { Context } from 'hono';

/**
 * The address a request came from. Behind a proxy that is trusted, the last entry of X-Forwarded-For (the one that
 * proxy wrote itself); earlier ones can be made up by anybody. Used for counting only, never logged or stored.
 */
export function clientAddress(c: Context, trustProxy: boolean): string {
  const forwarded = trustProxy
    ? c.req.header('x-forwarded-for')?.split(',').at(-1)?.trim()
    : undefined;
  const bindings = c.env as Partial<HttpBindings> | undefined;
  return forwarded ?? bindings?.incoming?.socket.remoteAddress ?? 'unknown';
}
