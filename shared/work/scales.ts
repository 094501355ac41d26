import { resolvePlant } from '../plant/defaults.ts';
import type { Plant } from '../plant/schema.ts';

/** Where the scales of the plant's gauges end, in bar, by the gauge's id; the usual end where the plant does not say. */
export type Scales = Readonly<Record<string, number>>;

export const scalesOf = (plant: Plant): Scales =>
  Object.fromEntries(
    resolvePlant(plant).plant.line.flatMap((part) =>
      part.kind === 'gauge' ? [[part.id, part.rangeBar]] : [],
    ),
  );

/** The gauges that were read past the end of their scale. */
export function pastScale(input: unknown, scales: Scales): string[] {
  const bar = (input as { readonly bar?: unknown } | undefined)?.bar;
  if (typeof bar !== 'object' || bar === null) return [];
  return Object.entries(bar).flatMap(([id, value]) =>
    typeof value === 'number' && value > (scales[id] ?? Number.POSITIVE_INFINITY) ? [id] : [],
  );
}

/** Where a tyre gauge or a test gauge ends that is brought along (common practice). */
const BROUGHT_ALONG_BAR = 10;

/** A pressure, or a loss of it, that neither a gauge of the plant nor one brought along can show. */
export function isTooHigh(input: unknown, scales: Scales): boolean {
  const { bar, lostBar } = (input ?? {}) as { readonly bar?: unknown; readonly lostBar?: unknown };
  const end = Math.max(BROUGHT_ALONG_BAR, ...Object.values(scales));
  return [bar, lostBar].some((figure) => typeof figure === 'number' && figure > end);
}
