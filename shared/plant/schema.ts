import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { checkPlant } from './checks.ts';
import { faultOf, messageOf, placeOf } from './messages.ts';
import { partSchema } from './parts.ts';

export type * from './parts.ts';
export { media } from './parts.ts';

export const plantSchema = z.strictObject({
  // one line: a database takes no NUL in a text, and no list or heading a break
  name: z
    .string()
    .min(1)
    .regex(/^\P{Cc}*$/u, 'must not hold control characters such as line breaks'),
  altitudeM: z.number().min(-450).max(6000).optional(),
  waterTempC: z.number().min(0).max(60).optional(),
  line: z.array(partSchema).min(1),
});

/** What stands between the tank and the taps, in the order the water meets it; the house is last. */
export type Plant = z.infer<typeof plantSchema>;

const MOST_OTHERS = 5;

/**
 * Reads a plant from parsed JSON.
 *
 * @param where how the reader knows the plant, put before every place ("plant", "case.json: plant")
 * @returns the plant as given, nothing filled in
 * @throws InputError at the first field that cannot be, naming some others too: unknown fields, ids twice or ill formed,
 *   NaN, infinite or negative numbers, cut-in not under cut-out, head rising with flow, no house, a house that is not last
 */
export function parsePlant(input: unknown, where = ''): Plant {
  const result = plantSchema.safeParse(input, { reportInput: true });
  if (!result.success) {
    const [first, ...others] = result.error.issues;
    if (first === undefined) throw new InputError(where, 'this is not a plant');
    // whoever writes a plant by hand need not come back for each of them
    const also = others
      .slice(0, MOST_OTHERS)
      .map((issue) => `; also ${placeOf(where, issue)}: ${messageOf(issue)}`);
    throw new InputError(placeOf(where, first), messageOf(first) + also.join(''), faultOf(first));
  }
  checkPlant(result.data, where);
  return result.data;
}
