import { createRoute, z } from '@hono/zod-openapi';
import { ruleSetsInUse } from '../../store/repositories/cases.ts';
import { Problem } from '../problem.ts';
import { answers } from '../schemas/common.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['Service'];

/** What those who run the server ask it. */
export function serviceRoutes({ deps }: RouteDeps): App {
  const app = openApiApp();

  app.openapi(
    createRoute({
      method: 'get',
      path: '/health',
      tags,
      summary: 'Whether the process lives',
      responses: answers(200, 'It does', z.object({ status: z.literal('ok') }).openapi('Health')),
    }),
    (c) => c.json({ status: 'ok' as const }, 200),
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/ready',
      tags,
      summary: 'Whether requests may be sent here',
      description: 'Not while the database does not answer, and not once the server is stopping.',
      responses: answers(
        200,
        'They may',
        z
          .object({
            status: z.literal('ready'),
            store: z.enum(['sqlite', 'postgres']),
            ruleSets: z.array(z.string()),
            missingRuleSets: z
              .array(z.string())
              .openapi({ description: 'cases stand on them, this server has them not' }),
          })
          .openapi('Ready'),
        503,
      ),
    }),
    async (c) => {
      if (deps.stopping.aborted) throw new Problem(503, 'The server is stopping.', 'stopping');
      await deps.store.ping();
      const { ruleSets } = deps.judge;
      const used = await ruleSetsInUse(deps.store.db);
      const missingRuleSets = used.filter((version) => !ruleSets.includes(version));
      return c.json(
        {
          status: 'ready' as const,
          store: deps.store.kind,
          ruleSets: [...ruleSets],
          missingRuleSets,
        },
        200,
      );
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/metrics',
      tags,
      summary: 'Counts in the Prometheus text format',
      responses: {
        200: { description: 'Counts', content: { 'text/plain': { schema: z.string() } } },
      },
    }),
    async (c) => {
      const { registry } = deps.metrics;
      return c.body(await registry.metrics(), 200, {
        'content-type': registry.contentType,
      }) as never;
    },
  );

  return app;
}
