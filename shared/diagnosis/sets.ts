/**
 * Which causes of one block may be present together: none, one or two. A set is a list of indexes into `causes`; the
 * first set is the empty one.
 */
export interface Block {
  readonly causes: readonly string[];
  readonly sets: readonly (readonly number[])[];
}

export function blockOf(causes: readonly string[]): Block {
  const sets: number[][] = [[]];
  for (let a = 0; a < causes.length; a++) sets.push([a]);
  for (let a = 0; a < causes.length; a++)
    for (let b = a + 1; b < causes.length; b++) sets.push([a, b]);
  return { causes, sets };
}

/** Where the set of these one or two causes stands in the block's list. */
export function setIndex(block: Block, a: number, b: number = a): number {
  const n = block.causes.length;
  if (a === b) return 1 + a;
  const [low, high] = a < b ? [a, b] : [b, a];
  return 1 + n + low * n - (low * (low + 1)) / 2 + (high - low - 1);
}
