import { createRoute } from '@hono/zod-openapi';
import { doors } from '../middleware/desk-door.ts';
import { answers, done, jsonBody, refParam } from '../schemas/common.ts';
import * as schema from '../schemas/desk.ts';
import * as desk from '../services/desk-work.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['Desk'];
const path = '/api/desk/cases/{ref}' as const;

/** What the desk writes beside a case: notes, the call, who has it, how it was closed. */
export function deskWorkRoutes({ deps, latest }: RouteDeps): App {
  const app = openApiApp();
  const door = doors(deps);

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/notes`,
      tags,
      summary: 'Write a note',
      middleware: door.caseAnybody,
      request: { params: refParam, ...jsonBody(schema.noteBody) },
      responses: answers(201, 'The note', schema.note, 400, 401, 404, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      return c.json(await desk.addNote(deps, c.var.person, ref, c.req.valid('json').text), 201);
    },
  );

  app.openapi(
    createRoute({
      method: 'patch',
      path: `${path}/call`,
      tags,
      summary: 'Write what changed about the call',
      middleware: door.caseAnybody,
      request: { params: refParam, ...jsonBody(schema.callBody) },
      responses: answers(200, 'The call', schema.call, 400, 401, 404, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      return c.json(await desk.changeCall(deps, ref, c.req.valid('json')), 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/assign`,
      tags,
      summary: 'Give the case to somebody, or to nobody',
      middleware: door.caseCallers,
      request: { params: refParam, ...jsonBody(schema.assignBody) },
      responses: done('Assigned', 400, 401, 403, 404, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      await desk.assign(deps, ref, c.req.valid('json').to);
      return c.body(null, 204);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/plant`,
      tags,
      summary: 'Put the case to a plant on record, or to none',
      middleware: door.caseCallers,
      request: { params: refParam, ...jsonBody(schema.plantBody) },
      responses: done('Put', 400, 401, 403, 404, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      await desk.putToPlant(deps, ref, c.req.valid('json').plant);
      return c.body(null, 204);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/close`,
      tags,
      summary: 'Close the case',
      description:
        'The call-back number and the way in are forgotten. A later answer opens the case again.',
      middleware: door.caseAnybody,
      request: { params: refParam, ...jsonBody(schema.closeBody) },
      responses: done('Closed', 400, 401, 404, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      await desk.closeCase(deps, latest, ref, c.req.valid('json').how);
      return c.body(null, 204);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/reopen`,
      tags,
      summary: 'Open a closed case again',
      middleware: door.caseAnybody,
      request: { params: refParam },
      responses: done('Open', 401, 404),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      await desk.reopenCase(deps, latest, ref);
      return c.body(null, 204);
    },
  );

  return app;
}
