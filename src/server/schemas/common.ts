import { z } from '@hono/zod-openapi';
import { suggestion } from '../../../shared/ruleset/nearest.ts';

/** Text for people: no control characters but line breaks and tabs, which no name or note needs and no database takes. */
export const text = (max: number) =>
  z
    .string()
    .trim()
    .min(1, 'must not be empty')
    .max(max, `at most ${max} characters`)
    .regex(/^(?:[^\p{Cc}]|[\n\r\t])*$/u, 'must not hold control characters');

/** A body with these fields and no other; who wrote another is told which was meant, or which there are. */
export const bodyOf = <Shape extends z.ZodRawShape>(shape: Shape) =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? unknownField(issue.keys[0] ?? '', Object.keys(shape))
        : undefined,
  });

const unknownField = (name: string, known: readonly string[]): string =>
  `unknown field: ${suggestion(name, known, `leave it out; those there: ${known.join(', ')}`)}`;

const token = (name: string, description: string) =>
  z
    .string()
    .max(200)
    .openapi({
      param: { name, in: 'path' },
      description,
      example: 'f9lB2x0Vb0cM3bA4nD7qT1yE8sK5wR6u',
    });

export const linkParam = z.object({
  id: token('id', 'The link of a case or plant: `id` continues it, `readId` only reads it.'),
});

/** Which link of a list. */
const linkRef = { link: text(100).openapi({ param: { name: 'link', in: 'path' } }) };

export const refParam = z.object({
  ref: z
    .uuid()
    .toLowerCase()
    .openapi({
      param: { name: 'ref', in: 'path' },
      description: "The desk's own reference of a case.",
    }),
});

export const linkOfLinkParam = linkParam.extend(linkRef);
export const linkOfCaseParam = refParam.extend(linkRef);

export const personParam = z.object({
  person: text(100).openapi({ param: { name: 'person', in: 'path' } }),
});

/** How a view is put into words; left out: as the case was opened. */
export const wordingQuery = z.object({
  audience: z.enum(['householder', 'agent', 'technician']).optional(),
  language: z
    .string()
    .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})?$/, 'a language tag such as "en"')
    .optional(),
});

const problemSchema = z
  .looseObject({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    where: z.string().optional(),
  })
  .openapi('Problem', {
    description: 'A problem document (RFC 9457). `where` names the place in what was sent.',
  });

const problem = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: problemSchema } },
});

const problems = {
  400: problem('Not JSON, or not readable'),
  401: problem('Sign in first'),
  403: problem('This link or role does not allow it'),
  404: problem('Nothing there'),
  409: problem('In conflict with what is stored'),
  410: problem('The link was withdrawn'),
  413: problem('Too large'),
  415: problem('Not JSON'),
  422: problem('Well formed, but cannot be used; `where` names the place'),
  429: problem('Too many requests; see `Retry-After`'),
  503: problem('Not available just now; see `Retry-After`'),
};

/** A route's answers: one that went well and the problems it may give. */
export const answers = <S extends number, T extends z.ZodType, P extends keyof typeof problems>(
  status: S,
  description: string,
  schema: T,
  ...may: P[]
) =>
  ({
    [status]: { description, content: { 'application/json': { schema } } },
    ...Object.fromEntries(may.map((code) => [code, problems[code]])),
  }) as Record<S, { description: string; content: { 'application/json': { schema: T } } }>;

/** A route that answers nothing but that it went well. */
export const done = <P extends keyof typeof problems>(description: string, ...may: P[]) =>
  ({ 204: { description }, ...Object.fromEntries(may.map((code) => [code, problems[code]])) }) as {
    204: { description: string };
  };

export const jsonBody = <T extends z.ZodType>(schema: T) => ({
  body: { required: true, content: { 'application/json': { schema } } },
});
