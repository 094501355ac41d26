import { InputError } from '../../shared/common/errors.ts';
import { gpmToLpm, kpaToBar, psiToBar } from '../../shared/hydraulics/units.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';

/** Units a pressure column may be in, and bar in one of them. */
const barPer: Readonly<Record<string, number>> = {
  bar: 1,
  mbar: 0.001,
  psi: psiToBar(1),
  kpa: kpaToBar(1),
  mpa: 10,
};
/** Units a flow column may be in, and L/min in one of them (US gallons). */
const lpmPer: Readonly<Record<string, number>> = {
  lpm: 1,
  'l/min': 1,
  'm3/h': 1000 / 60,
  'l/s': 60,
  'l/h': 1 / 60,
  gpm: gpmToLpm(1),
};

/** What a column of a file means. */
export type Meaning =
  | { readonly kind: 'at' }
  | {
      readonly kind: 'gauge';
      readonly gauge: string;
      readonly barPerUnit: number;
      readonly unit: string;
    }
  | { readonly kind: 'flow'; readonly lpmPerUnit: number; readonly unit: string }
  | { readonly kind: 'taps' }
  | { readonly kind: 'temperature'; readonly unit: 'C' | 'F' }
  | { readonly kind: 'nothing' };

export type Columns = ReadonlyMap<string, Meaning>;

const names: readonly (readonly [Meaning['kind'], RegExp])[] = [
  ['at', /^(at|date|day|time|datum|zeit|fecha|d[ií]a|when|timestamp|date.?time)\b/],
  ['taps', /^(taps?|open|taps? open|outlets?|state|grifos?|abiertos|zapfstellen?)\b/],
  ['temperature', /^(water)?[ _-]*(temp|temperature|temperatura?)\b|^t[ _]*\[?°?[cf]\]?$/],
  ['flow', /^(flow|q|rate|durchfluss|caudal)\b|flow/],
];

/**
 * Guesses what each column means by its name: gauges by their id (a unit may stand behind it), else by a common name.
 * Units that are not written are those of the program: bar, L/min, °C.
 */
export function guessColumns(header: readonly string[], plant: Plant): Map<string, Meaning> {
  const gauges = plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id);
  const found = new Map<string, Meaning>();
  const hasDay = () => [...found.values()].some(({ kind }) => kind === 'at');
  for (const name of header) {
    const meaning = guess(name, gauges);
    // A second column of times adds nothing: readings are told apart by day.
    found.set(name, meaning.kind === 'at' && hasDay() ? { kind: 'nothing' } : meaning);
  }
  return found;
}

function guess(name: string, gauges: readonly string[]): Meaning {
  const plain = name.trim().toLowerCase();
  const gauge = gauges.find((id) => wordsOf(plain).includes(id.toLowerCase()));
  if (gauge !== undefined) {
    const unit = unitIn(plain, barPer) ?? 'bar';
    return { kind: 'gauge', gauge, unit, barPerUnit: barPer[unit] ?? 1 };
  }
  const kind = names.find(([, pattern]) => pattern.test(plain))?.[0];
  if (kind === 'flow') {
    const unit = unitIn(plain, lpmPer) ?? 'lpm';
    return { kind, unit, lpmPerUnit: lpmPer[unit] ?? 1 };
  }
  if (kind === 'temperature') {
    return { kind, unit: /°?\bf\b|fahrenheit|_f$/.test(plain) ? 'F' : 'C' };
  }
  return kind === 'at' || kind === 'taps' ? { kind } : { kind: 'nothing' };
}

const wordsOf = (text: string): string[] => text.split(/[\s_()[\],;:]+/);

function unitIn(text: string, units: Readonly<Record<string, number>>): string | undefined {
  const words = wordsOf(text);
  return Object.keys(units).find((unit) => words.includes(unit));
}

/**
 * Corrects a guess by what the person wrote: `name=meaning`, separated by commas. A meaning is `at`, `taps`, `flow [unit]`,
 * `temperature [C or F]`, `nothing`, or a gauge's id with a unit (`G1 psi`).
 * @throws InputError naming the column or the meaning that is not known
 */
export function nameColumns(
  guessed: ReadonlyMap<string, Meaning>,
  given: string,
  plant: Plant,
): Map<string, Meaning> {
  const columns = new Map(guessed);
  const gauges = plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id);
  for (const pair of given.split(',')) {
    const at = pair.lastIndexOf('=');
    const column = pair.slice(0, Math.max(0, at)).trim();
    const meaning = pair.slice(at + 1).trim();
    if (at < 1 || !columns.has(column)) {
      const hint = suggestion(
        column,
        [...columns.keys()],
        `use one of ${[...columns.keys()].join(', ')}`,
      );
      throw new InputError('--columns', `there is no column "${column || pair}"; ${hint}`);
    }
    columns.set(column, meaningOf(meaning, gauges));
  }
  return columns;
}

function meaningOf(text: string, gauges: readonly string[]): Meaning {
  const [name = '', unit = ''] = text.split(/\s+/);
  const lower = unit.toLowerCase();
  if (gauges.includes(name)) {
    const barPerUnit = barPer[lower || 'bar'];
    if (barPerUnit !== undefined) {
      return { kind: 'gauge', gauge: name, unit: lower || 'bar', barPerUnit };
    }
    throw new InputError(
      '--columns',
      `"${unit}" is no unit of pressure; use ${Object.keys(barPer).join(', ')}`,
    );
  }
  if (name === 'flow') {
    const lpmPerUnit = lpmPer[lower || 'lpm'];
    if (lpmPerUnit !== undefined) return { kind: 'flow', unit: lower || 'lpm', lpmPerUnit };
    throw new InputError(
      '--columns',
      `"${unit}" is no unit of flow; use ${Object.keys(lpmPer).join(', ')}`,
    );
  }
  if (name === 'temperature') return { kind: 'temperature', unit: lower === 'f' ? 'F' : 'C' };
  if (name === 'at' || name === 'taps' || name === 'nothing') return { kind: name };
  const known = ['at', 'taps', 'flow', 'temperature', 'nothing', ...gauges];
  throw new InputError(
    '--columns',
    `"${text}" is no meaning; ${suggestion(name, known, `use ${known.join(', ')}`)}`,
  );
}

/** A meaning as it is written in `--columns`. */
export function meaningText(meaning: Meaning): string {
  switch (meaning.kind) {
    case 'gauge':
      return `${meaning.gauge} ${meaning.unit}`;
    case 'flow':
      return `flow ${meaning.unit}`;
    case 'temperature':
      return `temperature ${meaning.unit}`;
    default:
      return meaning.kind;
  }
}
