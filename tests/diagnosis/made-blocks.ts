import { blockOf } from '../../shared/diagnosis/sets.ts';
import type { Observation } from '../../shared/diagnosis/signs.ts';

/** Two small blocks of causes, and what an observation says of every pair of their sets. */
export const hydraulic = blockOf(['pump', 'filter', 'valve']);
export const quality = blockOf(['iron', 'smell']);

/** Value of an observation at a pair of sets. */
export const at = (o: Observation, i: number, j: number) =>
  o.joint
    ? (o.joint[i * quality.sets.length + j] ?? Number.NaN)
    : (o.h?.[i] ?? 1) * (o.q?.[j] ?? 1);
export const everyPair = hydraulic.sets.flatMap((h, i) =>
  quality.sets.map((q, j) => ({ h, q, i, j })),
);
