import { z } from '@hono/zod-openapi';
import { bodyOf } from './common.ts';

/** Bodies and answers about a plant that is looked after. */

export const newPlantBody = bodyOf({ plant: z.unknown().openapi({ type: 'object' }) }).openapi(
  'NewPlant',
);

export const openedPlant = z.object({ id: z.string(), readId: z.string() }).openapi('OpenedPlant');

export const plantFile = z
  .object({
    plant: z.unknown(),
    history: z.array(
      z.union([
        z.object({
          at: z.string(),
          taps: z.unknown(),
          bar: z.record(z.string(), z.number()),
          flowLpm: z.number().optional(),
        }),
        z.object({ at: z.string(), question: z.string(), value: z.unknown() }),
      ]),
    ),
    done: z.array(
      z.object({ at: z.string(), job: z.string(), parts: z.array(z.string()).optional() }),
    ),
  })
  .openapi('PlantFile', { description: 'The file `gaugewalk due` reads.' });
