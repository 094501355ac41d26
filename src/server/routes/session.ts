import { createRoute } from '@hono/zod-openapi';
import { clientAddress } from '../client-address.ts';
import { doors } from '../middleware/desk-door.ts';
import { countOrRefuse } from '../middleware/rate-limit.ts';
import { Problem } from '../problem.ts';
import { answers, done, jsonBody } from '../schemas/common.ts';
import * as schema from '../schemas/desk.ts';
import { type App, openApiApp, type RouteDeps } from './open-api-app.ts';

const tags = ['Sign-in'];

/** Signing in and out. The session is a cookie; nothing is kept in this process. */
export function sessionRoutes({ deps }: RouteDeps): App {
  const app = openApiApp();
  const door = doors(deps);
  const limit = deps.limits.signInsPerTenMinutes;

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/desk/sign-in',
      tags,
      summary: 'Sign in',
      description: 'Failures are limited, by address and by e-mail; signing in as one may is not.',
      request: jsonBody(schema.signInBody),
      responses: answers(
        200,
        'Who one is now; the session is in the cookie',
        schema.person,
        400,
        401,
        422,
        429,
      ),
    }),
    async (c) => {
      const { email, password } = c.req.valid('json');
      const address = clientAddress(c, deps.trustProxy);
      const ofAddress = await countOrRefuse(deps, `sign-in ${address}`, limit);
      const ofEmail = await countOrRefuse(deps, `sign-in ${email.toLowerCase()}`, limit);
      const headers = await deps.auth.signIn(email, password);
      const person = headers && (await deps.auth.findByEmail(email));
      if (!headers || !person) throw new Problem(401, 'E-mail and password do not fit.', 'sign-in');
      // a whole office behind one address signs in each morning
      await Promise.all([ofAddress(), ofEmail()]);
      for (const cookie of headers.getSetCookie()) c.header('set-cookie', cookie, { append: true });
      return c.json(person, 200);
    },
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/desk/sign-out',
      tags,
      summary: 'Sign out',
      responses: done('Signed out'),
    }),
    async (c) => {
      const headers = await deps.auth.signOut(c.req.raw.headers);
      for (const cookie of headers.getSetCookie()) c.header('set-cookie', cookie, { append: true });
      return c.body(null, 204);
    },
  );

  app.openapi(
    createRoute({
      method: 'get',
      path: '/api/desk/me',
      tags,
      summary: 'Who is signed in',
      middleware: door.anybody,
      responses: answers(200, 'The person', schema.person, 401),
    }),
    (c) => c.json(c.var.person, 200),
  );

  app.openapi(
    createRoute({
      method: 'post',
      path: '/api/desk/password',
      tags,
      summary: "Change one's own password; ends all one's sessions",
      middleware: door.anybody,
      request: jsonBody(schema.newPasswordBody),
      responses: done('Changed', 400, 401, 403, 422, 429),
    }),
    async (c) => {
      const { password, newPassword } = c.req.valid('json');
      const { id } = c.var.person;
      const takeBack = await countOrRefuse(deps, `password ${id}`, limit);
      if (!(await deps.auth.checkPassword(id, password)))
        throw new Problem(403, 'The old password is another one.');
      await takeBack();
      await deps.auth.setPassword(id, newPassword);
      return c.body(null, 204);
    },
  );

  return app;
}
