import { z } from '@hono/zod-openapi';
import { answerIdSchema, answerSchema, audiences } from '../../../shared/case/answer.ts';
import { caseStates, linkStrengths } from '../../store/tables.ts';
import { bodyOf, wordingQuery } from './common.ts';
import { viewSchema } from './view.ts';
import { workEntry } from './work.ts';

/** Bodies and answers about one case. */

const plant = z
  .unknown()
  .openapi({ type: 'object', description: 'the plant: what stands between tank and taps' });

export const newCaseBody = bodyOf({
  plant: plant.optional(),
  plantId: z
    .string()
    .max(200)
    .optional()
    .openapi({ description: 'the link of a plant on record, instead of `plant`' }),
  audience: wordingQuery.shape.audience,
  language: wordingQuery.shape.language,
}).openapi('NewCase');

export const openedCase = z
  .object({
    id: z.string().openapi({ description: 'the link that continues the case' }),
    readId: z.string().openapi({ description: 'the link that only reads it' }),
    view: viewSchema,
  })
  .openapi('OpenedCase');

export const answerBody = bodyOf({
  ...answerSchema.shape,
  answerId: answerIdSchema,
  question: z.string().min(1).max(100),
  after: z.int().min(0).optional().openapi({
    description: 'how many answers the sender has seen; refused with 409 when others came between',
  }),
}).openapi('NewAnswer');

// Made anew: only schemas made after the OpenAPI library was loaded can be described.
const answer = answerSchema.extend({}).openapi('Answer');

export const caseAndView = z
  .object({
    case: z.object({
      answers: z.array(answer),
      plant: z.unknown(),
      audience: z.enum(audiences).or(z.string()),
      language: z.string(),
      ruleSet: z.string(),
      state: z.enum(caseStates),
      createdAt: z.string(),
      changedAt: z.string(),
      rejudged: z.array(z.object({ at: z.string(), from: z.string(), to: z.string() })),
      mayContinue: z.boolean(),
      work: z.array(workEntry).openapi({ description: 'what happened at its jobs, in order' }),
    }),
    view: viewSchema,
  })
  .openapi('CaseAndView');

export const withdrawBody = bodyOf({
  strengths: z.array(z.enum(linkStrengths)).min(1).max(2),
}).openapi('Withdraw');

export const newLinkBody = bodyOf({ strength: z.enum(linkStrengths) }).openapi('NewLink');

export const newLink = z
  .object({ id: z.string(), strength: z.enum(linkStrengths) })
  .openapi('MadeLink');

export const links = z
  .object({
    links: z.array(
      z.object({
        ref: z.string().openapi({ description: 'names the link in this list; it opens nothing' }),
        strength: z.enum(linkStrengths),
        createdAt: z.string(),
        own: z.boolean().openapi({ description: 'the link through which this was asked' }),
      }),
    ),
  })
  .openapi('Links');

export const rejudgeBody = bodyOf({ ruleSet: z.string().max(50).optional() }).openapi('Rejudge');

const sides = <T extends z.ZodType>(schema: T) => z.object({ before: schema, after: schema });

export const rejudged = z
  .object({
    from: z.string(),
    to: z.string(),
    difference: z.object({
      leadingCause: sides(z.string().nullable()),
      causes: z.array(
        z.object({ id: z.string(), before: z.number().nullable(), after: z.number().nullable() }),
      ),
      next: sides(z.string().nullable()),
      plan: sides(z.array(z.string())),
      dispatch: sides(z.string()),
    }),
    before: viewSchema,
    after: viewSchema,
  })
  .openapi('Rejudged');

/** What a live connection sends as `data` of each `change` event; the event's id is `count`. */
export const changeEvent = z
  .object({
    count: z.number().int().openapi({ description: 'answers there are now' }),
    answers: z.array(answer).openapi({ description: 'those that are new to this connection' }),
    state: z.enum(caseStates),
    view: viewSchema,
    workCount: z.number().int().openapi({ description: 'events at jobs there are now' }),
    work: z.array(workEntry).openapi({ description: 'those that are new to this connection' }),
  })
  .openapi('Change');
