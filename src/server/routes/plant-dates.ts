import { createRoute, z } from '@hono/zod-openapi';
import { rateLimit } from '../middleware/rate-limit.ts';
import { answers, linkParam, wordingQuery } from '../schemas/common.ts';
import { openPlantLink } from '../services/links.ts';
import { createPlantDates } from '../services/plant-dates.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const icalendar = {
  description: 'Whole-day events, one per part and reason (RFC 5545)',
  content: { 'text/calendar': { schema: z.string() } },
};

/** A plant's due dates for a calendar that fetches them again by itself. */
export function plantDatesRoutes({ deps }: RouteDeps): App {
  const app = openApiApp();
  const datesOf = createPlantDates(deps);
  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/plants/{id}/dates.ics',
      tags: ['Plants'],
      summary: 'When the next service of a plant falls due, as a calendar to subscribe to',
      middleware: [
        rateLimit(deps, { name: 'dates', limit: deps.limits.casesPerTenMinutes }),
      ] as const,
      request: { params: linkParam, query: wordingQuery.pick({ language: true }) },
      responses: { ...answers(200, '', z.string(), 404, 410, 422, 429), 200: icalendar },
    }),
    async (c) => {
      const ref = await openPlantLink(deps.store.db, c.req.valid('param').id, 'read');
      const text = await datesOf(ref, c.req.valid('query').language ?? 'en');
      return c.body(text, 200, { 'content-type': 'text/calendar; charset=utf-8' }) as never;
    },
  );
  return app;
}
