import type { Part, Plant } from '../../shared/plant/schema.ts';

/** Kinds a person may add, in the words' order: "filter-carbon" is a filter with that medium. */
export const addable = [
  'gauge',
  'valve',
  'filter-sediment',
  'filter-carbon',
  'filter-membrane',
  'filter-softener',
  'uv',
  'vessel',
  'check-valve',
  'bypass',
  'pressure-reducer',
  'relief-valve',
  'drain',
  'dosing-pump',
  'mains',
  'tank',
  'suction',
  'pump',
] as const;
export type Addable = (typeof addable)[number];

/** A new part with nothing known about it, under a name the plant does not use yet. */
export function newPart(what: Addable, plant: Plant): Part {
  const [kind, medium] = what.startsWith('filter-') ? ['filter', what.slice(7)] : [what, undefined];
  const id = freeId(numbered[what] ?? medium ?? what, plant);
  if (kind === 'bypass') {
    const around = plant.line.filter((part) => part.kind === 'filter').map((part) => part.id);
    return { id, kind: 'bypass', around: around.length > 0 ? around : [plant.line[0]?.id ?? id] };
  }
  return { id, kind, ...(medium && { medium }) } as Part;
}

/** Of these a plant has several, told apart by number from the first on: G1, v1. */
const numbered: Readonly<Record<string, string>> = { gauge: 'G', valve: 'v' };

function freeId(stem: string, plant: Plant): string {
  const used = new Set(plant.line.map((part) => part.id));
  const isNumbered = Object.values(numbered).includes(stem);
  if (!isNumbered && !used.has(stem)) return stem;
  // the first without a number counts as one
  let n = isNumbered ? 1 : 2;
  while (used.has(isNumbered ? `${stem}${n}` : `${stem}-${n}`)) n += 1;
  return isNumbered ? `${stem}${n}` : `${stem}-${n}`;
}

/** The line with one part moved to another place. The house stays last. */
export function moved(line: readonly Part[], from: number, to: number): Part[] {
  const last = line.length - 2;
  const copy = [...line];
  const [part] = copy.splice(from, 1);
  if (part) copy.splice(Math.max(0, Math.min(last, to)), 0, part);
  return copy;
}
