import { z } from 'zod';

/** What may be in the water that nobody should drink. Apart from the tables, as the first screen loads it. */
export const drinkingHazard = z.enum(['microbes', 'chemical', 'metal']);
export type DrinkingHazard = z.infer<typeof drinkingHazard>;
