import { z } from 'zod';

/** Which taps were open during a reading: contract "Tap states". */
export const tapsSchema = z.union(
  [
    z.literal('closed'),
    z.literal('part-open'),
    z.strictObject({
      open: z.union([
        z.number().int('count whole taps').min(1, 'at least one tap; all shut is "closed"').max(50),
        z.array(z.string()).min(1, 'name at least one tap; all shut is "closed"'),
      ]),
    }),
  ],
  { error: 'taps is "closed", "part-open", {"open": number} or {"open": [tap ids]}' },
);
export type Taps = 'closed' | 'part-open' | { readonly open: number | readonly string[] };

/** One text per tap state, so that the same state again replaces the earlier reading. */
export function tapsKey(taps: Taps): string {
  if (typeof taps === 'string') return taps;
  return typeof taps.open === 'number'
    ? `open ${taps.open}`
    : `open ${[...taps.open].sort().join(' ')}`;
}
