import { createRoute } from '@hono/zod-openapi';
import { rateLimit } from '../middleware/rate-limit.ts';
import { answers, done, jsonBody, linkParam } from '../schemas/common.ts';
import * as schema from '../schemas/plant.ts';
import { openPlantLink } from '../services/links.ts';
import { erasePlant, openPlant, type PlantFile, readPlant } from '../services/plants.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['Plants'];

/** A plant that is looked after over the years; what is read and done there is told by the cases opened on it. */
export function plantRoutes({ deps, views }: RouteDeps): App {
  const app = openApiApp();
  const db = deps.store.db;

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/plants',
      tags,
      summary: 'Put a plant on record',
      middleware: [
        rateLimit(deps, { name: 'cases', limit: deps.limits.casesPerTenMinutes }),
      ] as const,
      request: jsonBody(schema.newPlantBody),
      responses: answers(201, 'Its two links', schema.openedPlant, 400, 422, 429),
    }),
    async (c) => {
      const { id, readId } = await openPlant(deps, views, c.req.valid('json').plant);
      return c.json({ id, readId }, 201);
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/plants/{id}',
      tags,
      summary: 'The plant as it is, with its readings and the work done',
      request: { params: linkParam },
      responses: answers(200, 'The plant and its history', schema.plantFile, 404, 410),
    }),
    async (c) => {
      const ref = await openPlantLink(db, c.req.valid('param').id, 'read');
      return c.json(sentPlant(await readPlant(deps, ref)), 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'delete',
      path: '/api/plants/{id}',
      tags,
      summary: 'Take the plant off the record',
      description: 'Its cases stay, each under its own links.',
      request: { params: linkParam },
      responses: done('Erased; its links now answer 410', 403, 404, 410),
    }),
    async (c) => {
      await erasePlant(deps, await openPlantLink(db, c.req.valid('param').id, 'continue'));
      return c.body(null, 204);
    },
  );

  return app;
}

export const sentPlant = ({ plant, history, done: work }: PlantFile) => ({
  plant,
  history: history.map((entry) => ('bar' in entry ? { ...entry, bar: { ...entry.bar } } : entry)),
  done: work.map(({ parts, ...item }) => ({ ...item, ...(parts && { parts: [...parts] }) })),
});
