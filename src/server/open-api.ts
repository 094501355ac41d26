import { z } from '@hono/zod-openapi';
import { caseStates, priorities } from '../store/tables.ts';
import type { App } from './routes/open-api-app.ts';

const webhookMessageSchema = z
  .object({
    type: z.literal('case.state-changed'),
    timestamp: z.string(),
    data: z.object({
      case: z.string().openapi({ description: "the desk's reference" }),
      plant: z.string().nullable(),
      version: z.number().int().openapi({
        description: 'grows with every change of the case; a smaller one than seen before is old',
      }),
      from: z.enum(caseStates).nullable().openapi({ description: 'null: the case was opened' }),
      to: z.enum(caseStates),
      closedHow: z.string().nullable(),
      leadingCause: z.string().nullable(),
      dispatch: z.string(),
      priority: z.enum(priorities),
      ruleSet: z.string(),
    }),
  })
  .openapi('WebhookMessage');

/** Adds `GET /openapi.json`, made from the schemas the routes check with, and the webhook's payload. */
export function describe(app: App, version: string): void {
  app.openAPIRegistry.registerComponent('securitySchemes', 'session', {
    type: 'apiKey',
    in: 'cookie',
    name: 'gaugewalk.session_token',
  });
  app.openAPIRegistry.registerWebhook({
    method: 'post',
    path: 'caseStateChanged',
    summary: 'A case changed its state',
    description:
      'Sent to WEBHOOK_URL, at least once, until it is answered with 2xx. Signed after the Standard Webhooks ' +
      'specification: `webhook-signature` is "v1," and the base64 HMAC-SHA256 of "webhook-id.webhook-timestamp.body".',
    request: {
      headers: z.object({
        'webhook-id': z.string(),
        'webhook-timestamp': z.string(),
        'webhook-signature': z.string(),
      }),
      body: { content: { 'application/json': { schema: webhookMessageSchema } } },
    },
    responses: { 200: { description: 'Received' } },
  });
  app.doc31('/openapi.json', {
    openapi: '3.1.0',
    info: {
      title: 'Gaugewalk',
      version,
      description:
        'Finds what is wrong with a small private water supply. Every error is a problem document (RFC 9457).',
    },
  });
}
