import { createRoute, z } from '@hono/zod-openapi';
import { countByState } from '../../store/repositories/cases.ts';
import { listPlants } from '../../store/repositories/plants.ts';
import { doors } from '../middleware/desk-door.ts';
import { openedCase } from '../schemas/case.ts';
import { answers, jsonBody, refParam } from '../schemas/common.ts';
import * as schema from '../schemas/desk.ts';
import { plantFile } from '../schemas/plant.ts';
import { asSent } from '../schemas/view.ts';
import { openCase } from '../services/cases.ts';
import { listDesk } from '../services/desk.ts';
import { readPlant } from '../services/plants.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';
import { sentPlant } from './plants.ts';

const tags = ['Desk'];

/** The desk over all cases and plants: list, search, count, open one for a caller. */
export function deskListRoutes({ deps, views }: RouteDeps): App {
  const app = openApiApp();
  const door = doors(deps);

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/desk/cases',
      tags,
      summary: 'Cases, latest change first',
      description: 'A technician sees those assigned to them.',
      middleware: door.anybody,
      request: { query: schema.listQuery },
      responses: answers(200, 'One page', schema.deskList, 401, 422),
    }),
    async (c) => c.json(await listDesk(deps, c.var.person, c.req.valid('query')), 200),
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/desk/counts',
      tags,
      summary: 'How many cases stand in each state',
      middleware: door.callers,
      responses: answers(
        200,
        'Counts by state',
        z.record(z.string(), z.number()).openapi('Counts'),
        401,
        403,
      ),
    }),
    async (c) => c.json(await countByState(deps.store.db), 200),
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/desk/cases',
      tags,
      summary: 'Open a case for a caller',
      middleware: door.callers,
      request: jsonBody(schema.newDeskCaseBody),
      responses: answers(
        201,
        'The case, its reference and its links (told once)',
        openedCase.extend({ ref: z.string() }).openapi('OpenedDeskCase'),
        400,
        401,
        403,
        404,
        422,
      ),
    }),
    async (c) => {
      const body = c.req.valid('json');
      const plant =
        body.plantRef === undefined ? body.plant : (await readPlant(deps, body.plantRef)).plant;
      const opened = await openCase(deps, views, {
        audience: 'agent',
        ...body,
        plant,
        assignedTo: c.var.person.id,
      });
      return c.json({ ...opened, view: asSent(opened.view) }, 201);
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/desk/plants',
      tags,
      summary: 'Plants on record, by name',
      middleware: door.callers,
      request: { query: schema.listQuery.pick({ search: true, limit: true }) },
      responses: answers(200, 'Plants', schema.deskPlants, 401, 403, 422),
    }),
    async (c) => {
      const { search, limit } = c.req.valid('query');
      const rows = await listPlants(deps.store.db, search, limit);
      return c.json(
        { plants: rows.map(({ ref, name, created_at }) => ({ ref, name, createdAt: created_at })) },
        200,
      );
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/desk/plants/{ref}',
      tags,
      summary: 'A plant with its history',
      middleware: door.callers,
      request: { params: refParam },
      responses: answers(200, 'The plant', plantFile, 401, 403, 404),
    }),
    async (c) => c.json(sentPlant(await readPlant(deps, c.req.valid('param').ref)), 200),
  );

  return app;
}
