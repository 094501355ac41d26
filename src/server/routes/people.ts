import { createRoute, z } from '@hono/zod-openapi';
import { listPeople } from '../../store/repositories/people.ts';
import { doors } from '../middleware/desk-door.ts';
import { answers, done, jsonBody, personParam } from '../schemas/common.ts';
import * as schema from '../schemas/desk.ts';
import { addPerson, changePerson, removePerson } from '../services/people.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['People'];

/** Who may sign in. Everybody at the desk sees the list (to assign cases); owners change it. */
export function peopleRoutes({ deps }: RouteDeps): App {
  const app = openApiApp();
  const door = doors(deps);

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/desk/people',
      tags,
      summary: 'Who there is',
      middleware: door.anybody,
      responses: answers(
        200,
        'Everybody',
        z.object({ people: z.array(schema.person) }).openapi('People'),
        401,
      ),
    }),
    async (c) => c.json({ people: await listPeople(deps.store.db) }, 200),
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/desk/people',
      tags,
      summary: 'Let somebody in',
      middleware: door.owners,
      request: jsonBody(schema.newPersonBody),
      responses: answers(201, 'The person', schema.person, 400, 401, 403, 409, 422),
    }),
    async (c) => c.json(await addPerson(deps, c.req.valid('json')), 201),
  );

  app.openapi(
    createRoute({
      method: 'patch',
      path: '/api/desk/people/{person}',
      tags,
      summary: 'Change a role or set a new password',
      middleware: door.owners,
      request: { params: personParam, ...jsonBody(schema.changePersonBody) },
      responses: answers(200, 'The person', schema.person, 400, 401, 403, 404, 409, 422),
    }),
    async (c) =>
      c.json(await changePerson(deps, c.req.valid('param').person, c.req.valid('json')), 200),
  );

  app.openapi(
    createRoute({
      method: 'delete',
      path: '/api/desk/people/{person}',
      tags,
      summary: 'Let somebody in no more',
      description: 'Their cases and notes stay, without the name.',
      middleware: door.owners,
      request: { params: personParam },
      responses: done('Removed', 401, 403, 404, 409),
    }),
    async (c) => {
      await removePerson(deps, c.req.valid('param').person);
      return c.body(null, 204);
    },
  );

  return app;
}
