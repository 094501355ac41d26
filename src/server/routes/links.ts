import { createRoute } from '@hono/zod-openapi';
import type { LinkTarget } from '../../store/repositories/links.ts';
import type { LinkRow } from '../../store/tables.ts';
import { notFound } from '../problem.ts';
import * as schema from '../schemas/case.ts';
import { answers, done, jsonBody, linkOfLinkParam, linkParam } from '../schemas/common.ts';
import { listLinks, makeLink, openLink, withdraw, withdrawOne } from '../services/links.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

/** Links of cases and plants: made anew, and withdrawn. The same for both, so both paths are registered alike. */
export function linkRoutes({ deps }: RouteDeps): App {
  const app = openApiApp();
  const db = deps.store.db;

  for (const [path, tag] of [
    ['/api/cases/{id}', 'Cases'],
    ['/api/plants/{id}', 'Plants'],
  ] as const) {
    app.openapi(
      createRoute({
        method: 'post',
        path: `${path}/links`,
        tags: [tag],
        summary: 'Make one more link',
        request: { params: linkParam, ...jsonBody(schema.newLinkBody) },
        responses: answers(
          201,
          'The link; it is told once',
          schema.newLink,
          400,
          403,
          404,
          410,
          422,
        ),
      }),
      async (c) => {
        const target = targetOf(await openLink(db, c.req.valid('param').id, 'continue'), tag);
        const { strength } = c.req.valid('json');
        const id = await makeLink(deps, db, target, strength, deps.clock().toISOString());
        return c.json({ id, strength }, 201);
      },
    );

    app.openapi(
      createRoute({
        method: 'get',
        path: `${path}/links`,
        tags: [tag],
        summary: 'The links that still open it',
        request: { params: linkParam },
        responses: answers(200, 'The links, oldest first', schema.links, 403, 404, 410),
      }),
      async (c) => {
        const link = await openLink(db, c.req.valid('param').id, 'continue');
        return c.json({ links: await listLinks(db, targetOf(link, tag), link) }, 200);
      },
    );

    app.openapi(
      createRoute({
        method: 'post',
        path: `${path}/links/{link}/withdraw`,
        tags: [tag],
        summary: 'Withdraw one link',
        request: { params: linkOfLinkParam },
        responses: done('Withdrawn; it now answers 410', 403, 404, 410, 422),
      }),
      async (c) => {
        const { id, link } = c.req.valid('param');
        await withdrawOne(deps, targetOf(await openLink(db, id, 'continue'), tag), link);
        return c.body(null, 204);
      },
    );

    app.openapi(
      createRoute({
        method: 'post',
        path: `${path}/withdraw`,
        tags: [tag],
        summary: 'Withdraw all links of one strength, or of both',
        request: { params: linkParam, ...jsonBody(schema.withdrawBody) },
        responses: done('Withdrawn; they now answer 410', 400, 403, 404, 410, 422),
      }),
      async (c) => {
        const target = targetOf(await openLink(db, c.req.valid('param').id, 'continue'), tag);
        await withdraw(deps, target, c.req.valid('json').strengths);
        return c.body(null, 204);
      },
    );
  }
  return app;
}

function targetOf(link: LinkRow, tag: 'Cases' | 'Plants'): LinkTarget {
  if (tag === 'Cases' && link.case_ref !== null) return { caseRef: link.case_ref };
  if (tag === 'Plants' && link.plant_ref !== null) return { plantRef: link.plant_ref };
  throw notFound();
}
