import { z } from '@hono/zod-openapi';
import type { View } from '../judge.ts';

/** The result of a diagnosis as it leaves the server: the same as on the command line, passed on unchanged. */

const caution = z.looseObject({ id: z.string(), text: z.string() });

export const viewSchema = z
  .looseObject({
    ruleSet: z.string(),
    today: z.string(),
    causes: z.array(
      z.looseObject({
        id: z.string(),
        probability: z.number().openapi({ description: 'that the cause is present' }),
      }),
    ),
    segments: z.array(z.looseObject({})).optional(),
    next: z.looseObject({ question: z.string() }).nullable(),
    plan: z.array(z.looseObject({ job: z.string() })),
    dispatch: z.looseObject({ decision: z.string() }),
    stopped: z.looseObject({ because: z.array(z.string()) }).nullable(),
    cautions: z.array(caution).optional(),
    warnings: z.array(caution).optional(),
    assumed: z.array(z.looseObject({})).optional(),
  })
  .openapi('View', {
    description: 'Causes with their probabilities, the next question, the plan and the cautions.',
  });

/**
 * The diagnosis is typed as it makes its results (read-only), the interface as it sends them; between the two stands
 * only JSON.
 */
export const asSent = (view: View): z.infer<typeof viewSchema> =>
  view as unknown as z.infer<typeof viewSchema>;
