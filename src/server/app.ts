import { bodyLimit } from 'hono/body-limit';
import { secureHeaders } from 'hono/secure-headers';
import type { Deps } from './deps.ts';
import { jsonBodies } from './middleware/json-bodies.ts';
import { log } from './middleware/log.ts';
import { ownOrigin } from './middleware/own-origin.ts';
import { onError } from './on-error.ts';
import { describe } from './open-api.ts';
import { notFound, Problem, problemResponse } from './problem.ts';
import { caseRoutes } from './routes/cases.ts';
import { deskCaseRoutes } from './routes/desk-case.ts';
import { deskListRoutes } from './routes/desk-list.ts';
import { deskWorkRoutes } from './routes/desk-work.ts';
import { eventRoutes } from './routes/events.ts';
import { linkRoutes } from './routes/links.ts';
import { type App, openApiApp } from './routes/open-api-app.ts';
import { peopleRoutes } from './routes/people.ts';
import { plantDatesRoutes } from './routes/plant-dates.ts';
import { plantRoutes } from './routes/plants.ts';
import { serviceRoutes } from './routes/service.ts';
import { sessionRoutes } from './routes/session.ts';
import { workRoutes } from './routes/work.ts';
import { createLatest } from './services/latest.ts';
import { createViews } from './services/views.ts';
import { serveWeb } from './static.ts';

const MAX_BODY_BYTES = 256 * 1024;

/** Every group of routes, in one list. */
const groups = [
  serviceRoutes,
  caseRoutes,
  linkRoutes,
  eventRoutes,
  plantRoutes,
  plantDatesRoutes,
  sessionRoutes,
  peopleRoutes,
  deskListRoutes,
  deskCaseRoutes,
  deskWorkRoutes,
  workRoutes,
];

/** The whole HTTP interface over what it is handed; it listens to nothing and keeps nothing. */
export function createApp(deps: Deps, version = '0'): App {
  const app = openApiApp();
  const tooLarge = new Problem(413, `The body is larger than ${MAX_BODY_BYTES / 1024} KiB.`);

  app.use(log(deps));
  app.use(securityHeaders(deps.publicUrl.startsWith('https:')));
  app.use(
    '/api/*',
    bodyLimit({ maxSize: MAX_BODY_BYTES, onError: () => problemResponse(tooLarge) }),
  );
  app.use('/api/*', ownOrigin(deps.publicUrl));
  app.use('/api/*', jsonBodies);
  app.use('/api/*', async (c, next) => {
    await next();
    if (!c.res.headers.has('cache-control')) c.header('cache-control', 'no-store');
  });

  const views = createViews(deps);
  const routeDeps = { deps, views, latest: createLatest(deps, views) };
  for (const group of groups) app.route('/', group(routeDeps));
  describe(app, version);
  serveWeb(app, deps.webDir);

  app.notFound(() => problemResponse(notFound()));
  app.onError(onError(deps));
  return app;
}

/** Only our own files run, nothing frames us, and no address (links are in addresses) is told to another site. */
const securityHeaders = (https: boolean) =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'self'"],
      baseUri: ["'none'"],
      connectSrc: ["'self'"],
      fontSrc: ["'self'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
      imgSrc: ["'self'", 'data:'],
      manifestSrc: ["'self'"],
      objectSrc: ["'none'"],
      scriptSrc: ["'self'"],
      styleSrc: ["'self'"],
      workerSrc: ["'self'"],
    },
    referrerPolicy: 'no-referrer',
    strictTransportSecurity: https ? 'max-age=31536000' : false,
    xFrameOptions: 'DENY',
  });
