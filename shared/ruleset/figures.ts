import { L_PER_IMPERIAL_GALLON, L_PER_US_GALLON, toBar } from '../hydraulics/units.ts';

/** Units of a person's choice. Cases hold bar and litres; these are for what people read. */
export const pressureUnits = ['bar', 'psi', 'kPa'] as const;
export type PressureUnit = (typeof pressureUnits)[number];
export const volumeUnits = ['L', 'US gal', 'imp gal'] as const;
export type VolumeUnit = (typeof volumeUnits)[number];

/** How a reader wants figures. */
export interface Units {
  readonly pressure: PressureUnit;
  readonly volume: VolumeUnit;
  /** whose decimal sign figures carry ("es": 4,0); left out: a point, as in files */
  readonly language?: string;
}
export const siUnits: Units = { pressure: 'bar', volume: 'L' };

const litresPer: Readonly<Record<VolumeUnit, number>> = {
  L: 1,
  'US gal': L_PER_US_GALLON,
  'imp gal': L_PER_IMPERIAL_GALLON,
};

/** Digits behind the decimal sign in each unit. */
export type Digits = Readonly<Record<PressureUnit, number>>;
/** What a gauge can show: a tenth of a bar. */
export const gaugeDigits: Digits = { bar: 1, psi: 0, kPa: 0 };
/** A pressure lost between two gauges is told one digit finer than they show. */
export const dropDigits: Digits = { bar: 2, psi: 1, kPa: 0 };

export const inPressureUnit = (bar: number, unit: PressureUnit): number => bar / toBar[unit](1);
export const inVolumeUnit = (litres: number, unit: VolumeUnit): number => litres / litresPer[unit];
export const toLitres = (value: number, unit: VolumeUnit): number => value * litresPer[unit];

/** A number with so many digits behind the decimal sign; `loose`: without noughts at the end. */
export function numberText(
  value: number,
  digits: number,
  language: string | undefined,
  loose = false,
): string {
  const rounded = Number(value.toFixed(digits));
  const figure = rounded === 0 ? 0 : rounded; // no "-0.0"
  if (language === undefined) return loose ? String(figure) : figure.toFixed(digits);
  return new Intl.NumberFormat(language, {
    minimumFractionDigits: loose ? 0 : digits,
    maximumFractionDigits: digits,
    useGrouping: false,
  }).format(figure);
}

/** A pressure in bar in the reader's unit, without the unit's name. */
export function pressureFigure(bar: number, units: Units, digits: Digits = gaugeDigits): string {
  return numberText(inPressureUnit(bar, units.pressure), digits[units.pressure], units.language);
}

/** A pressure in bar in the reader's unit, with as many digits as a gauge can show: "4.0 bar". */
export function pressureText(bar: number, units: Units, digits: Digits = gaugeDigits): string {
  return `${pressureFigure(bar, units, digits)} ${units.pressure}`;
}

/** A pressure without noughts at the end, for what was typed or set: "6", "3.5". */
export function looseFigure(bar: number, units: Units, digits: Digits): string {
  const value = inPressureUnit(bar, units.pressure);
  return numberText(value, digits[units.pressure], units.language, true);
}

/** The same with the unit's name: "3.5 bar", "51 psi". */
export function looseText(bar: number, units: Units, digits: Digits): string {
  return `${looseFigure(bar, units, digits)} ${units.pressure}`;
}

/** A text of the words with its pressures, written `{0.2 bar}`, in the reader's unit. */
export function inReaderUnits(text: string, units: Units): string {
  return text.replaceAll(/\{(\d+(?:\.\d+)?) bar\}/g, (_, bar: string) =>
    looseText(Number(bar), units, dropDigits),
  );
}

/** What a flow is counted in, by the reader's unit of volume: a minute of it. */
export const flowUnits: Readonly<Record<VolumeUnit, string>> = {
  L: 'L/min',
  'US gal': 'US gpm',
  'imp gal': 'imp gpm',
};

/** A flow in litres a minute in the reader's unit of volume. */
export function flowText(lpm: number, { volume, language }: Units, digits?: number): string {
  const value = inVolumeUnit(lpm, volume);
  return `${numberText(value, digits ?? (value < 10 ? 1 : 0), language)} ${flowUnits[volume]}`;
}

/** How many times clean a stretch is: two figures are all that gauges give. */
export function timesText(times: number, language: string | undefined): string {
  return significantText(times, 2, language, true);
}

/** A number with so many figures that count, never as a power of ten: 12 300, 12.3, 0.12. */
export function significantText(
  value: number,
  figures: number,
  language: string | undefined,
  loose = false,
): string {
  const rounded = Number(value.toPrecision(figures));
  const digits = Math.max(0, figures - 1 - Math.floor(Math.log10(Math.max(rounded, 0.01))));
  return numberText(rounded, digits, language, loose);
}

/** A volume in litres in the reader's unit, three figures of it. */
export function volumeText(litres: number, { volume, language }: Units): string {
  return `${significantText(inVolumeUnit(litres, volume), 3, language)} ${volume}`;
}
