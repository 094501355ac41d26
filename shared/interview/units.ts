import { M_PER_FOOT, toBar } from '../hydraulics/units.ts';
import { toLitres, type Units } from '../ruleset/figures.ts';

/** What a figure measures; it decides which units may stand after it. */
export type Quantity =
  | 'pressure'
  | 'volume'
  | 'seconds'
  | 'minutes'
  | 'hours'
  | 'metres'
  | 'number';

/** A typed figure, in bar, litres, seconds, minutes, hours or metres; `unit` when one of choice was typed behind it. */
export interface Figure {
  readonly value: number;
  readonly units: Partial<Units>;
}

interface Spelling {
  readonly pattern: RegExp;
  readonly times: number;
  readonly units?: Partial<Units>;
}

/** Units as people write them in the languages of the words, without accents; signs are the same in all. */
const spellings: Readonly<Record<Exclude<Quantity, 'number'>, readonly Spelling[]>> = {
  pressure: [
    { pattern: /^bar(s|es)?$/, times: 1, units: { pressure: 'bar' } },
    { pattern: /^(psi|lbs?|pounds?|libras?)$/, times: toBar.psi(1), units: { pressure: 'psi' } },
    { pattern: /^kpa$/, times: toBar.kPa(1), units: { pressure: 'kPa' } },
  ],
  volume: [
    { pattern: /^(l|lit(re|er|ro)s?)$/, times: 1, units: { volume: 'L' } },
    {
      pattern: /^us ?(gal|gallons?)$|^gal(ones|on)? (us|eeuu|americanos?)$/,
      times: toLitres(1, 'US gal'),
      units: { volume: 'US gal' },
    },
    {
      pattern:
        /^(imp|imperial|uk) ?(gal|gallons?)$|^gal(ones|on)? (imp|imperial(es)?|ingles(es)?)$/,
      times: toLitres(1, 'imp gal'),
      units: { volume: 'imp gal' },
    },
  ],
  seconds: [
    { pattern: /^(s|secs?|seconds?|segs?|segundos?)$/, times: 1 },
    { pattern: /^(m|mins?|minutes?|minutos?)$/, times: 60 },
  ],
  minutes: [
    { pattern: /^(m|mins?|minutes?|minutos?)$/, times: 1 },
    { pattern: /^(s|secs?|seconds?|segs?|segundos?)$/, times: 1 / 60 },
    { pattern: /^(h|hours?|horas?)$/, times: 60 },
  ],
  hours: [
    { pattern: /^(h|hours?|horas?)$/, times: 1 },
    { pattern: /^(days?|dias?)$/, times: 24 },
  ],
  metres: [
    { pattern: /^(m|met(re|er|ro)s?)$/, times: 1 },
    { pattern: /^cm$/, times: 0.01 },
    { pattern: /^(ft|feet|foot|pies?)$/, times: M_PER_FOOT },
  ],
};

/**
 * Reads "58 psi", "3,4", "1:20" (minutes and seconds). Without a unit the figure is in the person's own units; null
 * when it is no such figure.
 */
export function readFigure(text: string, quantity: Quantity, units: Units): Figure | null {
  const clock = /^(\d+):([0-5]\d)$/.exec(text.trim());
  if (clock && (quantity === 'seconds' || quantity === 'minutes')) {
    const seconds = Number(clock[1]) * 60 + Number(clock[2]);
    return { value: quantity === 'seconds' ? seconds : seconds / 60, units: {} };
  }
  const bare = text.trim().normalize('NFD').replaceAll(/\p{M}/gu, '');
  const parts = /^([-+−]?\d+(?:[.,]\d+)?)\s*([a-z ]*?)\.?$/i.exec(bare);
  if (!parts) return null;
  // "9,000" hours: nine, or nine thousand? Pressures and heights are never in thousands.
  if (inThousands.includes(quantity) && /^[1-9]\d{0,2}[.,]\d{3}$/.test(parts[1] ?? '')) return null;
  const value = Number((parts[1] ?? '').replace('−', '-').replace(',', '.'));
  const unit = (parts[2] ?? '').toLowerCase().replace(/\s+/g, ' ');
  if (quantity === 'number') return unit === '' ? { value, units: {} } : null;
  if (
    unit === '' ||
    (/^gal(lons?|ones|on)?$/.test(unit) && quantity === 'volume' && units.volume !== 'L')
  ) {
    return { value: rounded(value * ownUnit(quantity, units)), units: {} };
  }
  const spelling = spellings[quantity].find(({ pattern }) => pattern.test(unit));
  return spelling ? { value: rounded(value * spelling.times), units: spelling.units ?? {} } : null;
}

/** Gauges read out in one line, "4.2 4.1 0.4": so many pressures in bar, or null when it is not that. */
export function readPressures(text: string, count: number, units: Units): readonly number[] | null {
  const pieces = text.trim().split(/,?\s+|;\s*/);
  if (count < 2 || pieces.length !== count) return null;
  const figures = pieces.flatMap((piece) => readFigure(piece, 'pressure', units)?.value ?? []);
  return figures.length === count ? figures : null;
}

const inThousands: readonly Quantity[] = ['volume', 'seconds', 'minutes', 'hours', 'number'];

function ownUnit(quantity: Quantity, units: Units): number {
  if (quantity === 'pressure') return toBar[units.pressure](1);
  return quantity === 'volume' ? toLitres(1, units.volume) : 1;
}

/** Ten thousandths: finer than any gauge or bucket, short enough to read in a case file. */
const rounded = (value: number) => Math.round(value * 1e4) / 1e4;
