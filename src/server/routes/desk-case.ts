import { createRoute, z } from '@hono/zod-openapi';
import { doors, stillSees } from '../middleware/desk-door.ts';
import * as caseSchema from '../schemas/case.ts';
import {
  answers,
  done,
  jsonBody,
  linkOfCaseParam,
  refParam,
  wordingQuery,
} from '../schemas/common.ts';
import * as schema from '../schemas/desk.ts';
import { asSent, viewSchema } from '../schemas/view.ts';
import { append } from '../services/append.ts';
import { eraseCase, readCase } from '../services/cases.ts';
import { readDeskCase } from '../services/desk.ts';
import { readCall, readNotes } from '../services/desk-work.ts';
import { listLinks, makeLink, withdraw, withdrawOne } from '../services/links.ts';
import { rejudge } from '../services/rejudge.ts';
import { readWork } from '../services/work.ts';
import { sentRejudged } from './cases.ts';
import { eventStream, seenHeader, seenQuery } from './events.ts';
import { liveCase } from './live.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['Desk'];
const path = '/api/desk/cases/{ref}' as const;

/** One case at the desk, by its reference. Every route asks first whether this person may see the case. */
export function deskCaseRoutes(routeDeps: RouteDeps): App {
  const { deps, views, latest } = routeDeps;
  const app = openApiApp();
  const door = doors(deps);

  app.openapi(
    createRoute({
      method: 'get',
      path,
      tags,
      summary: 'A case with its call and notes',
      middleware: door.caseAnybody,
      request: { params: refParam, query: wordingQuery },
      responses: answers(
        200,
        'The case',
        caseSchema.caseAndView
          .extend({ desk: schema.deskCase, call: schema.call, notes: z.array(schema.note) })
          .openapi('DeskCaseAndView'),
        401,
        404,
        422,
        503,
      ),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      const found = await readCase(deps, views, ref, c.req.valid('query'));
      const sent = {
        ...found.case,
        answers: [...found.case.answers],
        rejudged: [...found.case.rejudged],
        mayContinue: true,
        work: await readWork(deps.store.db, ref, true),
      };
      return c.json(
        {
          case: sent,
          view: asSent(found.view),
          desk: await readDeskCase(deps, found.row),
          call: await readCall(deps, ref),
          notes: await readNotes(deps, ref),
        },
        200,
      );
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/answers`,
      tags,
      summary: 'Add an answer',
      middleware: door.caseAnybody,
      request: { params: refParam, query: wordingQuery, ...jsonBody(caseSchema.answerBody) },
      responses: answers(200, 'The view with it', viewSchema, 400, 401, 404, 409, 422, 503),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      const { after, ...answer } = c.req.valid('json');
      await append(deps, ref, answer, after);
      const { view, count } = await latest(ref, c.req.valid('query'));
      return c.json(asSent(view), 200, { 'answer-count': String(count) });
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: `${path}/events`,
      tags,
      summary: 'Hear of changes as they happen (server-sent events)',
      middleware: door.caseAnybody,
      request: { params: refParam, query: seenQuery, headers: seenHeader },
      responses: { 200: eventStream },
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      const { seen, work, ...wording } = c.req.valid('query');
      return liveCase(c, routeDeps, {
        ...{ ref, wording, work, isNamed: true },
        seen: c.req.valid('header')['last-event-id'] ?? seen,
        stillAllowed: () => stillSees(deps, c.req.raw.headers, ref),
      }) as never;
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/rejudge`,
      tags,
      summary: 'Judge the case by another rule set from now on',
      middleware: door.caseCallers,
      request: { params: refParam, ...jsonBody(caseSchema.rejudgeBody) },
      responses: answers(
        200,
        'Both views and their difference',
        caseSchema.rejudged,
        400,
        401,
        403,
        404,
        422,
        503,
      ),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      return c.json(
        sentRejudged(await rejudge(deps, views, ref, c.req.valid('json').ruleSet)),
        200,
      );
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/links`,
      tags,
      summary: 'Make a link to send to somebody',
      middleware: door.caseCallers,
      request: { params: refParam, ...jsonBody(caseSchema.newLinkBody) },
      responses: answers(
        201,
        'The link; it is told once',
        caseSchema.newLink,
        400,
        401,
        403,
        404,
        422,
      ),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      const { strength } = c.req.valid('json');
      const id = await makeLink(
        deps,
        deps.store.db,
        { caseRef: ref },
        strength,
        deps.clock().toISOString(),
      );
      return c.json({ id, strength }, 201);
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: `${path}/links`,
      tags,
      summary: 'The links that still open the case',
      middleware: door.caseCallers,
      request: { params: refParam },
      responses: answers(200, 'The links, oldest first', caseSchema.links, 401, 403, 404),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      return c.json({ links: await listLinks(deps.store.db, { caseRef: ref }) }, 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/links/{link}/withdraw`,
      tags,
      summary: 'Withdraw one link',
      middleware: door.caseCallers,
      request: { params: linkOfCaseParam },
      responses: done('Withdrawn; it now answers 410', 401, 403, 404, 422),
    }),
    async (c) => {
      const { ref, link } = c.req.valid('param');
      await withdrawOne(deps, { caseRef: ref }, link);
      return c.body(null, 204);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: `${path}/withdraw`,
      tags,
      summary: 'Withdraw all links of one strength, or of both',
      middleware: door.caseCallers,
      request: { params: refParam, ...jsonBody(caseSchema.withdrawBody) },
      responses: done('Withdrawn', 400, 401, 403, 404, 422),
    }),
    async (c) => {
      const { ref } = c.req.valid('param');
      await withdraw(deps, { caseRef: ref }, c.req.valid('json').strengths);
      return c.body(null, 204);
    },
  );

  app.openapi(
    createRoute({
      method: 'delete',
      path,
      tags,
      summary: 'Erase the case and everything about it',
      middleware: door.caseOwners,
      request: { params: refParam },
      responses: done('Erased', 401, 403, 404),
    }),
    async (c) => {
      await eraseCase(deps, c.req.valid('param').ref);
      return c.body(null, 204);
    },
  );

  return app;
}
