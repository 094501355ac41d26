import type { Plant } from '../plant/schema.ts';

/** Any entry of a record, not checked yet. */
type Entry = Readonly<Record<string, unknown>>;

/**
 * A plant changes over the years: what was read at a gauge or tap, or done to a part, that is there no more counts for
 * nothing. Gives the entry without it, or null where nothing is left; `gone` hears each id.
 */
export function readingNow<E extends Entry>(
  entry: E,
  plant: Plant,
  gone: (id: string) => void,
): E | null {
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
  const isThere = (ids: readonly string[]) => (id: string) => {
    if (!ids.includes(id)) gone(id);
    return ids.includes(id);
  };
  const at = 'question' in entry ? fieldOf(entry.value, 'gauge') : undefined;
  if (typeof at === 'string' && !isThere(gauges)(at)) return null;
  const open = fieldOf(entry.taps, 'open');
  const house = plant.line.find((part) => part.kind === 'house');
  const taps = (house?.taps ?? []).map(({ id }) => id);
  if (Array.isArray(open) && !open.map(String).every(isThere(taps))) return null;
  const now: Record<string, unknown> = { ...entry };
  for (const unit of ['bar', 'psi', 'kPa']) {
    const pressures = entry[unit];
    if (typeof pressures !== 'object' || pressures === null) continue;
    const read = Object.entries(pressures);
    const left = read.filter(([id]) => isThere(gauges)(id));
    if (left.length === 0 && read.length > 0) return null;
    now[unit] = Object.fromEntries(left);
  }
  return now as E;
}

/** The same for work: null where it was done to nothing that is there. */
export function workNow<W extends { readonly parts?: string[] | undefined }>(
  work: W,
  plant: Plant,
  gone: (id: string) => void,
): W | null {
  if (!work.parts) return work;
  const there = plant.line.map(({ id }) => id);
  const parts = work.parts.filter((id) => there.includes(id));
  for (const id of work.parts) if (!there.includes(id)) gone(id);
  return parts.length === 0 ? null : { ...work, parts };
}

const fieldOf = (value: unknown, field: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Entry)[field] : undefined;
