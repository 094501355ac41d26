import type { Plant } from './schema.ts';

/** A stretch of the line between two gauges: what the gauges can tell apart is a segment, not a part. */
export interface Segment {
  /** id of the gauge it begins at; null at the source */
  readonly from: string | null;
  /** id of the gauge it ends at; null at the house */
  readonly to: string | null;
  /** ids of the parts between, in the order of the line */
  readonly parts: readonly string[];
}

/** Cuts a plant's line at its gauges. Tank, pump and vessel before the first gauge are in the first segment. */
export function segmentsOf(plant: {
  readonly line: Plant['line'] | readonly { id: string; kind: string }[];
}): Segment[] {
  const segments: Segment[] = [];
  let from: string | null = null;
  let parts: string[] = [];
  for (const part of plant.line) {
    if (part.kind !== 'gauge') {
      parts.push(part.id);
      continue;
    }
    segments.push({ from, to: part.id, parts });
    from = part.id;
    parts = [];
  }
  segments.push({ from, to: null, parts });
  return segments;
}
