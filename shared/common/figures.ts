import { z } from 'zod';

/** Beyond these no plant has anything, and nothing read at one; inside them no arithmetic overflows. */
export const LARGEST = 1e9;
/** So near to zero that it is called zero. */
export const SMALLEST = 1e-9;

export const finite = z.number().min(-LARGEST).max(LARGEST);
export const atLeastZero = z.number().min(0).max(LARGEST);
export const positive = z.number().min(SMALLEST).max(LARGEST);
