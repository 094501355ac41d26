import { z } from '@hono/zod-openapi';
import { caseStates, priorities, roles } from '../../store/tables.ts';
import { MIN_PASSWORD } from '../auth.ts';
import { bodyOf, text, wordingQuery } from './common.ts';

/** Bodies and answers of the desk, for signed-in people. */

const email = z.email().max(200);
const password = z.string().min(MIN_PASSWORD, `at least ${MIN_PASSWORD} characters`).max(128);

export const person = z
  .object({ id: z.string(), name: z.string(), email: z.string(), role: z.enum(roles) })
  .openapi('Person');

export const signInBody = bodyOf({ email, password: z.string().min(1).max(128) }).openapi('SignIn');

export const newPasswordBody = bodyOf({
  password: z.string().min(1).max(128),
  newPassword: password,
}).openapi('NewPassword');

export const newPersonBody = bodyOf({
  name: text(100),
  email,
  role: z.enum(roles),
  password,
}).openapi('NewPerson');

export const changePersonBody = bodyOf({
  role: z.enum(roles).optional(),
  password: password.optional(),
}).openapi('ChangePerson');

export const deskCase = z
  .object({
    ref: z.string(),
    plant: z.string().nullable(),
    plantName: z.string().nullable(),
    state: z.enum(caseStates),
    leadingCause: z.string().nullable(),
    priority: z.enum(priorities),
    audience: z.string(),
    answers: z.number().int(),
    assignedTo: z.string().nullable(),
    closedHow: z.string().nullable(),
    createdAt: z.string(),
    changedAt: z.string(),
    atWork: z
      .object({ job: z.string(), part: z.string().nullable(), at: z.string() })
      .nullable()
      .openapi({
        description: 'the last thing that happened at a job; null once that was its end',
      }),
  })
  .openapi('DeskCase');

const LIST_MAX = 200;

export const listQuery = z.object({
  state: z
    .enum([...caseStates, 'open'])
    .optional()
    .openapi({ description: '`open`: all that are not closed' }),
  priority: z.enum(priorities).optional(),
  cause: text(100).optional().openapi({ description: 'the leading cause' }),
  assigned: text(100).optional().openapi({ description: '`me`, `none`, or a person' }),
  plant: z.uuid().toLowerCase().optional(),
  search: text(100).optional().openapi({
    description:
      "words of the plant's name, of a note or of the call-back, in any order; the beginning of `ref`; or a number to call back, however it is parted",
  }),
  after: text(100).optional().openapi({ description: '`next` of the page before' }),
  limit: z.coerce.number().int().min(1).max(LIST_MAX).default(50),
});

export const deskList = z
  .object({ cases: z.array(deskCase), next: z.string().nullable() })
  .openapi('DeskList');

export const call = z
  .object({
    callBack: z.string().nullable(),
    access: z.string().nullable(),
    stopPhraseAt: z.string().nullable(),
  })
  .openapi('Call');

const callBack = text(100).openapi({
  description: 'a number and when; forgotten when the case is closed',
});

export const callBody = bodyOf({
  callBack: callBack.nullable().optional(),
  access: text(500)
    .nullable()
    .optional()
    .openapi({ description: 'how to get to the plant; forgotten when the case is closed' }),
  stopPhraseSaid: z
    .literal(true)
    .optional()
    .openapi({ description: 'the stop phrase was said just now' }),
}).openapi('ChangeCall');

export const note = z
  .object({ id: z.string(), by: z.string().nullable(), at: z.string(), text: z.string() })
  .openapi('Note');

export const noteBody = bodyOf({ text: text(4000) }).openapi('NewNote');

export const assignBody = bodyOf({ to: text(100).nullable() }).openapi('Assign');

export const plantBody = bodyOf({ plant: z.uuid().toLowerCase().nullable() }).openapi('PutToPlant');

const closings = ['settled', 'sent', 'referred', 'not-reached', 'twice'] as const;

export const closeBody = bodyOf({ how: z.enum(closings) }).openapi('Close');

export const newDeskCaseBody = bodyOf({
  plant: z.unknown().openapi({ type: 'object' }).optional(),
  plantRef: z.uuid().toLowerCase().optional(),
  callBack: callBack.optional(),
  audience: wordingQuery.shape.audience,
  language: wordingQuery.shape.language,
}).openapi('NewDeskCase');

export const deskPlants = z
  .object({
    plants: z.array(z.object({ ref: z.string(), name: z.string(), createdAt: z.string() })),
  })
  .openapi('DeskPlants');
