import { z } from '@hono/zod-openapi';
import { answerSchema } from '../../../shared/case/answer.ts';
import { bodyOf } from './common.ts';

/** Bodies and answers about what happens at a case's jobs. */

const MOST = 100;
const id = z
  .string()
  .max(MOST)
  .regex(/^[a-z0-9-]+$/, 'use small letters, digits and hyphens');
// made anew: only schemas made after the OpenAPI library was loaded can be described
const uuid = z.uuid().toLowerCase();

/** One of these says what happened; the others belong to a tick or to all. */
const kinds = ['step', 'lost', 'takeBack', 'pauseMinutes', 'stillSo', 'danger'] as const;

const happened = bodyOf({
  at: answerSchema.shape.at,
  step: id.optional(),
  answer: id.optional().openapi({ description: 'of a tick: what was chosen' }),
  input: z.unknown().optional().openapi({ description: 'of a tick: what was read or noted' }),
  lost: id.optional(),
  takeBack: id.optional(),
  pauseMinutes: z.number().min(0).optional(),
  stillSo: z.array(id).max(MOST).optional(),
  danger: z.array(id).min(1).max(MOST).optional(),
}).superRefine((event, context) => {
  const said = kinds.filter((kind) => event[kind] !== undefined);
  if (said.length !== 1)
    context.addIssue({ code: 'custom', message: `must hold exactly one of ${kinds.join(', ')}` });
  const ofTick = (['answer', 'input'] as const).find((field) => event[field] !== undefined);
  if (ofTick && event.step === undefined)
    context.addIssue({ code: 'custom', message: 'goes with a step only', path: [ofTick] });
});

const entry = {
  eventId: uuid,
  follows: uuid.nullable().openapi({
    description:
      'the entry of this job that counted last where this one was made; null: none yet. One that follows another does not count.',
  }),
  job: id,
  part: z
    .string()
    .max(MOST)
    .regex(/^[a-zA-Z0-9-]+$/, 'use letters, digits and hyphens')
    .nullable(),
  device: uuid.openapi({ description: 'a random name of the browser it was made in' }),
};

export const workBody = bodyOf({
  ...entry,
  event: happened.nullable().openapi({
    description: 'what happened; null: the job is over, or is to be begun anew',
  }),
  seen: z
    .int()
    .min(0)
    .default(0)
    .openapi({ description: 'entries of the case already known, not to be sent again' }),
}).openapi('NewWorkEvent');

export const workEntry = z
  .object({
    ...entry,
    event: z.unknown().openapi({ type: ['object', 'null'], description: 'as it was sent' }),
    by: z.string().nullable().openapi({
      description: 'who was signed in that sent it; told at the desk only',
    }),
    receivedAt: z.string(),
  })
  .openapi('WorkEvent');

export const workSeen = z
  .object({
    count: z.int().openapi({ description: 'entries there are now' }),
    work: z.array(workEntry).openapi({ description: 'those after `seen`' }),
  })
  .openapi('WorkSeen');
