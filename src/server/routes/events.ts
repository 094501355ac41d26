import { createRoute, z } from '@hono/zod-openapi';
import { Problem } from '../problem.ts';
import { changeEvent } from '../schemas/case.ts';
import { linkParam, wordingQuery } from '../schemas/common.ts';
import { openCaseLink } from '../services/links.ts';
import { type Allowed, liveCase } from './live.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

export const seenQuery = wordingQuery.extend({
  seen: z.coerce
    .number()
    .int()
    .min(0)
    .default(0)
    .openapi({ description: 'answers already known, not to be sent again' }),
  work: z.coerce
    .number()
    .int()
    .min(0)
    .default(0)
    .openapi({ description: 'the same for what happened at jobs' }),
});

export const seenHeader = z.object({
  'last-event-id': z.coerce
    .number()
    .int()
    .min(0)
    .optional()
    .openapi({ description: 'sent by the browser when it connects again' }),
});

export const eventStream = {
  description: 'Events `change` (see the schema Change) and at the end perhaps `withdrawn`',
  content: { 'text/event-stream': { schema: changeEvent } },
};

/** A case as it happens, by its link. */
export function eventRoutes(routeDeps: RouteDeps): App {
  const app = openApiApp();
  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/cases/{id}/events',
      tags: ['Cases'],
      summary: 'Hear of answers as they arrive (server-sent events)',
      request: { params: linkParam, query: seenQuery, headers: seenHeader },
      responses: { 200: eventStream },
    }),
    async (c) => {
      const { id } = c.req.valid('param');
      const { seen, work, ...wording } = c.req.valid('query');
      const db = routeDeps.deps.store.db;
      const ref = await openCaseLink(db, id, 'read');
      return liveCase(c, routeDeps, {
        ...{ ref, wording, work, isNamed: false },
        seen: c.req.valid('header')['last-event-id'] ?? seen,
        stillAllowed: () => opens(openCaseLink(db, id, 'read')),
      }) as never;
    },
  );
  return app;
}

/** `no` when a link does not open any more; a store that fails is an error, not a withdrawal. */
async function opens(link: Promise<string>): Promise<Allowed> {
  try {
    await link;
    return 'yes';
  } catch (error) {
    if (error instanceof Problem) return 'no';
    throw error;
  }
}
