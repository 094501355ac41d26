import { createRoute } from '@hono/zod-openapi';
import { rateLimit } from '../middleware/rate-limit.ts';
import { notFound } from '../problem.ts';
import * as schema from '../schemas/case.ts';
import { answers, done, jsonBody, linkParam, wordingQuery } from '../schemas/common.ts';
import { asSent, viewSchema } from '../schemas/view.ts';
import { append } from '../services/append.ts';
import { eraseCase, openCase, readCase } from '../services/cases.ts';
import { openCaseLink, openLink, openPlantLink } from '../services/links.ts';
import { readPlant } from '../services/plants.ts';
import { previewRejudge, rejudge } from '../services/rejudge.ts';
import { readWork } from '../services/work.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['Cases'];

/** A case by its link: open, read, answer, judge anew, erase. */
export function caseRoutes({ deps, views, latest }: RouteDeps): App {
  const app = openApiApp();
  const db = deps.store.db;

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/cases',
      tags,
      summary: 'Open a case',
      middleware: [
        rateLimit(deps, { name: 'cases', limit: deps.limits.casesPerTenMinutes }),
      ] as const,
      request: jsonBody(schema.newCaseBody),
      responses: answers(
        201,
        'The case, its two links and its first view',
        schema.openedCase,
        400,
        404,
        410,
        422,
        429,
      ),
    }),
    async (c) => {
      const { plantId, ...body } = c.req.valid('json');
      const plantRef =
        plantId === undefined ? undefined : await openPlantLink(db, plantId, 'continue');
      const plant = plantRef === undefined ? body.plant : (await readPlant(deps, plantRef)).plant;
      const { id, readId, view } = await openCase(deps, views, { ...body, plant, plantRef });
      return c.json({ id, readId, view: asSent(view) }, 201);
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/cases/{id}',
      tags,
      summary: 'Read a case',
      request: { params: linkParam, query: wordingQuery },
      responses: answers(200, 'The case and its view', schema.caseAndView, 404, 410, 422, 503),
    }),
    async (c) => {
      const link = await openLink(db, c.req.valid('param').id, 'read');
      if (link.case_ref === null) throw notFound();
      const found = await readCase(deps, views, link.case_ref, c.req.valid('query'));
      const mayContinue = link.strength === 'continue';
      const sent = {
        ...found.case,
        answers: [...found.case.answers],
        rejudged: [...found.case.rejudged],
        mayContinue,
        work: await readWork(db, link.case_ref, false),
      };
      return c.json({ case: sent, view: asSent(found.view) }, 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/cases/{id}/answers',
      tags,
      summary: 'Add an answer',
      description:
        'The same `answerId` again changes nothing. The header `Answer-Count` tells how many there are now.',
      request: { params: linkParam, query: wordingQuery, ...jsonBody(schema.answerBody) },
      responses: answers(200, 'The view with it', viewSchema, 400, 403, 404, 409, 410, 422, 503),
    }),
    async (c) => {
      const ref = await openCaseLink(db, c.req.valid('param').id, 'continue');
      const { after, ...answer } = c.req.valid('json');
      await append(deps, ref, answer, after);
      const { view, count } = await latest(ref, c.req.valid('query'));
      return c.json(asSent(view), 200, { 'answer-count': String(count) });
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/cases/{id}/rejudge',
      tags,
      summary: 'What another rule set would say',
      request: { params: linkParam, query: wordingQuery.extend(schema.rejudgeBody.shape) },
      responses: answers(
        200,
        'Both views and their difference',
        schema.rejudged,
        404,
        410,
        422,
        503,
      ),
    }),
    async (c) => {
      const ref = await openCaseLink(db, c.req.valid('param').id, 'read');
      const { ruleSet, ...wording } = c.req.valid('query');
      return c.json(sentRejudged(await previewRejudge(deps, views, ref, ruleSet, wording)), 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/cases/{id}/rejudge',
      tags,
      summary: 'Judge the case by another rule set from now on',
      request: { params: linkParam, ...jsonBody(schema.rejudgeBody) },
      responses: answers(
        200,
        'Both views and their difference',
        schema.rejudged,
        400,
        403,
        404,
        410,
        422,
        503,
      ),
    }),
    async (c) => {
      const ref = await openCaseLink(db, c.req.valid('param').id, 'continue');
      return c.json(
        sentRejudged(await rejudge(deps, views, ref, c.req.valid('json').ruleSet)),
        200,
      );
    },
  );

  app.openapi(
    createRoute({
      method: 'delete',
      path: '/api/cases/{id}',
      tags,
      summary: 'Erase the case and everything about it',
      request: { params: linkParam },
      responses: done('Erased; its links now answer 410', 403, 404, 410),
    }),
    async (c) => {
      await eraseCase(deps, await openCaseLink(db, c.req.valid('param').id, 'continue'));
      return c.body(null, 204);
    },
  );

  return app;
}

type Rejudged = Awaited<ReturnType<typeof rejudge>>;

export function sentRejudged({ difference, before, after, ...rest }: Rejudged) {
  return {
    ...rest,
    difference: {
      ...difference,
      causes: [...difference.causes],
      plan: { before: [...difference.plan.before], after: [...difference.plan.after] },
    },
    before: asSent(before),
    after: asSent(after),
  };
}
