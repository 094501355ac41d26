import type { Audience } from '../../shared/case/answer.ts';

/** The three ways of speaking, as a list without the schema that checks them. */
export const audiences: readonly Audience[] = ['householder', 'agent', 'technician'];
