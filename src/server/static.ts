import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { serveStatic } from '@hono/node-server/serve-static';
import type { App } from './routes/open-api-app.ts';

const YEAR_S = 365 * 24 * 60 * 60;

/**
 * Serves the built web client when it is there. Files with a hash in their name stay with the browser for a year;
 * everything that is no file is the client's own page, which reads the address itself.
 */
export function serveWeb(app: App, webDir: string | undefined): void {
  if (webDir === undefined || !existsSync(join(webDir, 'index.html'))) return;
  // the build lays each text file beside itself in compressed form
  const files = serveStatic({ root: webDir, precompressed: true });
  const page = serveStatic({ root: webDir, path: 'index.html', precompressed: true });
  app.get('*', async (c, next) => {
    if (/^\/(api|health|ready|metrics|openapi\.json|problems)(\/|$)/.test(c.req.path))
      return next();
    const isPage =
      c.req.header('accept')?.includes('text/html') && !/\.[a-z0-9]+$/i.test(c.req.path);
    const found = await (isPage ? page(c, next) : files(c, next));
    if (!(found instanceof Response)) return undefined; // no such file: what comes after has answered
    const hashed = c.req.path.startsWith('/assets/');
    const keep = hashed ? `public, max-age=${YEAR_S}, immutable` : 'no-cache';
    found.headers.set('cache-control', keep);
    return found;
  });
}
