import type { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { faultOf, messageOf, placeOf } from '../plant/messages.ts';

/** Throws an InputError naming the place of the first thing wrong. */
export function parseWith<T>(schema: z.ZodType<T>, value: unknown, where: string): T {
  const result = schema.safeParse(value, { reportInput: true });
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  if (!issue) throw new InputError(where, 'not understood');
  throw new InputError(placeOf(where, issue), sentenceOf(issue), faultOf(issue));
}

/** A message of our own stands; the library's are put in plain words. */
export function sentenceOf(issue: z.core.$ZodIssue): string {
  const own = !/^(Too |Invalid |Unrecognized )/.test(issue.message);
  return own ? issue.message : messageOf(issue);
}
