import { z } from 'zod';
import { drinkingHazard } from '../ruleset/hazard.ts';
import type { Answer } from './answer.ts';

/** The value of a `work-done` answer. */
export const workDoneSchema = z.strictObject({
  job: z.string(),
  parts: z.array(z.string()).optional(),
  /** what may be in the water since, until later work or `[]` says otherwise; left out: as before */
  notToDrink: z.array(drinkingHazard).optional(),
  /** false: it was begun and handed over, so only what may be drunk has changed */
  done: z.literal(false).optional(),
  /** false: it must not be tried again before other work was done */
  again: z.literal(false).optional(),
});

/** Whether an answer tells of work that was done, to its end. */
export const tellsOfWork = ({ question, value }: Pick<Answer, 'question' | 'value'>): boolean =>
  question === 'work-done' &&
  value !== null &&
  value !== 'unknown' &&
  (value as { readonly done?: unknown }).done !== false;
