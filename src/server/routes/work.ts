import { createRoute } from '@hono/zod-openapi';
import type { WorkEntry } from '../../../shared/work/log.ts';
import { doors } from '../middleware/desk-door.ts';
import { answers, jsonBody, linkParam, refParam } from '../schemas/common.ts';
import * as schema from '../schemas/work.ts';
import { openCaseLink } from '../services/links.ts';
import { appendEvent, readWork, type StoredWork } from '../services/work.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const summary = 'Add what happened at a job';
const description =
  'The same `eventId` again changes nothing. Every event is kept; one that was not made in sight of all before it, or at ' +
  'another device that has not said `stillSo`, does not count.';

/** What happens at the jobs of a case, by its link and at the desk. */
export function workRoutes({ deps }: Pick<RouteDeps, 'deps'>): App {
  const app = openApiApp();
  const door = doors(deps);
  const db = deps.store.db;

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/cases/{id}/work',
      tags: ['Cases'],
      ...{ summary, description },
      request: { params: linkParam, ...jsonBody(schema.workBody) },
      responses: answers(200, 'What is new', schema.workSeen, 400, 403, 404, 409, 410, 422),
    }),
    async (c) => {
      const ref = await openCaseLink(db, c.req.valid('param').id, 'continue');
      const { seen, ...entry } = c.req.valid('json');
      await appendEvent(deps, ref, entry as WorkEntry, null);
      return c.json(seenFrom(await readWork(db, ref, false), seen), 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/desk/cases/{ref}/work',
      tags: ['Desk'],
      ...{ summary, description },
      middleware: door.caseAnybody,
      request: { params: refParam, ...jsonBody(schema.workBody) },
      responses: answers(200, 'What is new', schema.workSeen, 400, 401, 404, 409, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      const { seen, ...entry } = c.req.valid('json');
      await appendEvent(deps, ref, entry as WorkEntry, c.var.person.id);
      return c.json(seenFrom(await readWork(db, ref, true), seen), 200);
    },
  );

  return app;
}

const seenFrom = (all: readonly StoredWork[], seen: number) => ({
  count: all.length,
  work: all.slice(seen),
});
