/** Numbers that look random and are the same for the same seed. */
export interface Random {
  /** evenly in [0, 1) */
  readonly next: () => number;
  readonly between: (low: number, high: number) => number;
  /** evenly in the logarithm */
  readonly logBetween: (low: number, high: number) => number;
  readonly normal: (sd: number) => number;
  readonly chance: (p: number) => boolean;
  readonly whole: (low: number, high: number) => number;
  readonly pick: <T>(items: readonly T[]) => T;
  readonly weighted: <T>(items: readonly (readonly [T, number])[]) => T;
}

/** Marsaglia's xorshift on 32 bits over a mixed seed; good enough for drawing plants, not for secrets. */
export function randomOf(...seeds: readonly number[]): Random {
  let state = 0x9e3779b9;
  for (const seed of seeds) state = mixed(state ^ mixed(seed + 0x85ebca6b));
  state ||= 1;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  const between = (low: number, high: number) => low + (high - low) * next();
  const pick = <T>(items: readonly T[]): T => {
    const item = items[Math.floor(next() * items.length)];
    if (item === undefined) throw new Error('nothing to pick from');
    return item;
  };
  return {
    next,
    between,
    pick,
    logBetween: (low, high) => low * (high / low) ** next(),
    normal: (sd) => sd * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    chance: (p) => next() < p,
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
    weighted: (items) => {
      let left = next() * items.reduce((sum, [, weight]) => sum + weight, 0);
      for (const [item, weight] of items) {
        left -= weight;
        if (left < 0) return item;
      }
      return pick(items)[0];
    },
  };
}

function mixed(value: number): number {
  let x = value | 0;
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return x ^ (x >>> 16);
}
