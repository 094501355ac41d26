import { OpenAPIHono } from '@hono/zod-openapi';
import type { AppEnv, Deps } from '../deps.ts';
import { schemaProblem } from '../schema-problem.ts';
import type { LatestView } from '../services/latest.ts';
import type { ComputeView } from '../services/views.ts';

/** What every group of routes gets. */
export interface RouteDeps {
  readonly deps: Deps;
  readonly views: ComputeView;
  readonly latest: LatestView;
}

export type App = OpenAPIHono<AppEnv>;

/** An app whose schema failures become problem documents. */
export const openApiApp = (): App =>
  new OpenAPIHono<AppEnv>({
    defaultHook: (result) => {
      if (!result.success) throw schemaProblem(result.target, result.error.issues);
    },
  });
