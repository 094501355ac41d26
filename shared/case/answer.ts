import { z } from 'zod';
import { atLeastZero } from '../common/figures.ts';

/**
 * Answers as they arrive. A case is an append-only list of these; everything else is computed from it.
 * `value` is checked against the question's kind in values.ts, because a rule set decides which questions there are.
 */

const day = z.iso.date('write the day as YYYY-MM-DD');
const time = z.iso.datetime({
  offset: true,
  error:
    'write the time with its seconds and its offset from UTC as ±hh:mm or Z, e.g. 2026-11-25T08:30:00+01:00',
});

/** The same UUID in capitals is the same (RFC 9562, 4). */
export const answerIdSchema = z.uuid().toLowerCase();

export const answerSchema = z.strictObject({
  answerId: answerIdSchema.optional(),
  question: z.string().min(1),
  value: z.unknown(),
  at: time.optional(),
});

export interface Answer {
  readonly answerId?: string | undefined;
  readonly question: string;
  readonly value: unknown;
  readonly at?: string | undefined;
}

export const audiences = ['householder', 'agent', 'technician'] as const;
export type Audience = (typeof audiences)[number];

export const caseSchema = z.strictObject({
  plant: z.unknown(),
  answers: z.array(answerSchema),
  today: day.optional(),
  audience: z.enum(audiences).optional(),
  language: z.string().optional(),
  costs: z
    .strictObject({
      currency: z.string().min(1),
      perHour: atLeastZero,
      callOut: atLeastZero,
    })
    .optional(),
});
export type Costs = NonNullable<z.infer<typeof caseSchema>['costs']>;

export type Day = string;
export const daySchema = day;
