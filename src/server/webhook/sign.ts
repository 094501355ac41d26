import { createHmac } from 'node:crypto';

/** The secret's form in the Standard Webhooks specification: "whsec_" and 24 to 64 bytes in base64. */
export const secretPattern = /^whsec_[A-Za-z0-9+/]{32,88}={0,2}$/;

/**
 * The headers of a signed message after the Standard Webhooks specification (symmetric, v1): HMAC-SHA256 over
 * "id.timestamp.body", so that a receiver can tell our message, its age and a repetition.
 */
export function signedHeaders(
  secret: string,
  id: string,
  sentAt: Date,
  body: string,
): Record<string, string> {
  const timestamp = String(Math.floor(sentAt.getTime() / 1000));
  const key = Buffer.from(secret.slice('whsec_'.length), 'base64');
  const signature = createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64');
  return {
    'webhook-id': id,
    'webhook-timestamp': timestamp,
    'webhook-signature': `v1,${signature}`,
  };
}
