import {
  barToPsi,
  kpaToBar,
  L_PER_IMPERIAL_GALLON,
  L_PER_US_GALLON,
  M_PER_FOOT,
  psiToBar,
} from '../hydraulics/units.ts';

/** Units of a person's choice. Cases hold bar and litres; these are for the edges only. */
export const pressureUnits = ['bar', 'psi', 'kPa'] as const;
export type PressureUnit = (typeof pressureUnits)[number];
export const volumeUnits = ['L', 'US gal', 'imp gal'] as const;
export type VolumeUnit = (typeof volumeUnits)[number];
export interface Units {
  readonly pressure: PressureUnit;
  readonly volume: VolumeUnit;
}
export const siUnits: Units = { pressure: 'bar', volume: 'L' };

const barPer: Readonly<Record<PressureUnit, number>> = {
  bar: 1,
  psi: psiToBar(1),
  kPa: kpaToBar(1),
};
const litresPer: Readonly<Record<VolumeUnit, number>> = {
  L: 1,
  'US gal': L_PER_US_GALLON,
  'imp gal': L_PER_IMPERIAL_GALLON,
};

/** A pressure in bar in the chosen unit, with as many digits as a gauge can show. */
export function pressureText(bar: number, unit: PressureUnit): string {
  return `${pressureFigure(bar, unit, { bar: 1, psi: 0, kPa: 0 })} ${unit}`;
}

/** A pressure lost between two gauges, one digit finer than the gauges. Without its unit. */
export function dropFigure(bar: number, unit: PressureUnit): string {
  return pressureFigure(bar, unit, { bar: 2, psi: 1, kPa: 0 });
}

function pressureFigure(bar: number, unit: PressureUnit, digits: Record<PressureUnit, number>) {
  const value = unit === 'psi' ? barToPsi(bar) : bar / barPer[unit];
  return withoutMinusZero(value.toFixed(digits[unit]));
}

/** A flow in litres a minute in the chosen unit of volume. */
export function flowText(lpm: number, unit: VolumeUnit): string {
  const value = lpm / litresPer[unit];
  const name = { L: 'L/min', 'US gal': 'US gpm', 'imp gal': 'imp gpm' }[unit];
  return `${value.toFixed(value < 10 ? 1 : 0)} ${name}`;
}

/** A volume in litres in the chosen unit. */
export function volumeText(litres: number, unit: VolumeUnit): string {
  return `${(litres / litresPer[unit]).toPrecision(3)} ${unit}`;
}

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

const spellings: Readonly<Record<Exclude<Quantity, 'number'>, readonly Spelling[]>> = {
  pressure: [
    { pattern: /^bars?$/, times: 1, units: { pressure: 'bar' } },
    { pattern: /^(psi|lbs?|pounds?)$/, times: barPer.psi, units: { pressure: 'psi' } },
    { pattern: /^kpa$/, times: barPer.kPa, units: { pressure: 'kPa' } },
  ],
  volume: [
    { pattern: /^(l|lit(re|er)s?)$/, times: 1, units: { volume: 'L' } },
    {
      pattern: /^us ?(gal|gallons?)$/,
      times: litresPer['US gal'],
      units: { volume: 'US gal' },
    },
    {
      pattern: /^(imp|imperial|uk) ?(gal|gallons?)$/,
      times: litresPer['imp gal'],
      units: { volume: 'imp gal' },
    },
  ],
  seconds: [
    { pattern: /^(s|secs?|seconds?)$/, times: 1 },
    { pattern: /^(m|mins?|minutes?)$/, times: 60 },
  ],
  minutes: [
    { pattern: /^(m|mins?|minutes?)$/, times: 1 },
    { pattern: /^(s|secs?|seconds?)$/, times: 1 / 60 },
    { pattern: /^(h|hours?)$/, times: 60 },
  ],
  hours: [
    { pattern: /^(h|hours?)$/, times: 1 },
    { pattern: /^days?$/, times: 24 },
  ],
  metres: [
    { pattern: /^(m|met(re|er)s?)$/, times: 1 },
    { pattern: /^cm$/, times: 0.01 },
    { pattern: /^(ft|feet|foot)$/, times: M_PER_FOOT },
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
  const parts = /^([-+−]?\d+(?:[.,]\d+)?)\s*([a-z ]*?)\.?$/i.exec(text.trim());
  if (!parts) return null;
  const value = Number((parts[1] ?? '').replace('−', '-').replace(',', '.'));
  const unit = (parts[2] ?? '').toLowerCase().replace(/\s+/g, ' ');
  if (quantity === 'number') return unit === '' ? { value, units: {} } : null;
  if (unit === '' || (unit.startsWith('gal') && quantity === 'volume' && units.volume !== 'L')) {
    return { value: rounded(value * ownUnit(quantity, units)), units: {} };
  }
  const spelling = spellings[quantity].find(({ pattern }) => pattern.test(unit));
  return spelling ? { value: rounded(value * spelling.times), units: spelling.units ?? {} } : null;
}

function ownUnit(quantity: Quantity, units: Units): number {
  if (quantity === 'pressure') return barPer[units.pressure];
  return quantity === 'volume' ? litresPer[units.volume] : 1;
}

/** Ten thousandths: finer than any gauge or bucket, short enough to read in a case file. */
const rounded = (value: number) => Math.round(value * 1e4) / 1e4;
const withoutMinusZero = (text: string) => (/^-0(\.0+)?$/.test(text) ? text.slice(1) : text);
