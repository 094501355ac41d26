import type { Taps } from '../../shared/case/taps.ts';
import { barToPsi, L_PER_IMPERIAL_GALLON, L_PER_US_GALLON } from '../../shared/hydraulics/units.ts';
import type { PressureUnit, VolumeUnit } from '../../shared/interview/units.ts';
import type { Settings } from './settings.ts';
import type { Say } from './words.ts';

/** Numbers, pressures and days as the reader wants them. */
export interface Format {
  /** "2.4 bar" */
  readonly reading: (bar: number) => string;
  /** "2.4" */
  readonly readingFigure: (bar: number) => string;
  /** "2", for round pressures along a scale */
  readonly scaleFigure: (bar: number) => string;
  readonly drop: (bar: number) => string;
  readonly flow: (lpm: number) => string;
  readonly number: (value: number, digits?: number) => string;
  readonly percent: (share: number) => string;
  /** "25 November 2026" */
  readonly day: (day: string) => string;
  readonly time: (at: string) => string;
  readonly taps: (taps: Taps) => string;
  /** the key of the pressure unit's name */
  readonly unitKey: string;
}

/** Figures worth showing: a gauge is read to a tenth of a bar, a small drop to a hundredth. */
const pressureDigits: Record<PressureUnit, { readonly reading: number; readonly drop: number }> = {
  bar: { reading: 1, drop: 2 },
  psi: { reading: 0, drop: 1 },
  kPa: { reading: 0, drop: 0 },
};
const litresPer: Record<VolumeUnit, number> = {
  L: 1,
  'US gal': L_PER_US_GALLON,
  'imp gal': L_PER_IMPERIAL_GALLON,
};
const KPA_PER_BAR = 100;

export function formatOf(settings: Settings, say: Say): Format {
  const { language, pressure, volume } = settings;
  const digits = pressureDigits[pressure];
  const number = (value: number, places = 1): string =>
    new Intl.NumberFormat(language, {
      minimumFractionDigits: places,
      maximumFractionDigits: places,
    }).format(Object.is(value, -0) ? 0 : value);
  const inUnit = (bar: number): number =>
    pressure === 'psi' ? barToPsi(bar) : pressure === 'kPa' ? bar * KPA_PER_BAR : bar;
  const withUnit = (figure: string): string =>
    say('figure-and-unit', { figure, unit: say(`unit-${pressure.toLowerCase()}`) });
  const flowUnit = { L: 'unit-lpm', 'US gal': 'unit-us-gpm', 'imp gal': 'unit-imp-gpm' }[volume];
  return {
    unitKey: `unit-${pressure.toLowerCase()}`,
    reading: (bar) => withUnit(number(inUnit(bar), digits.reading)),
    readingFigure: (bar) => number(inUnit(bar), digits.reading),
    scaleFigure: (bar) => number(inUnit(bar), 0),
    drop: (bar) => withUnit(number(inUnit(bar), bar >= 1 ? digits.reading : digits.drop)),
    flow: (lpm) =>
      say('figure-and-unit', { figure: number(lpm / litresPer[volume]), unit: say(flowUnit) }),
    number,
    percent: (share) =>
      new Intl.NumberFormat(language, { style: 'percent', maximumFractionDigits: 0 }).format(share),
    day: (day) =>
      new Intl.DateTimeFormat(language, { dateStyle: 'long', timeZone: 'UTC' }).format(
        new Date(`${day.slice(0, 10)}T00:00:00Z`),
      ),
    time: (at) =>
      new Intl.DateTimeFormat(language, { dateStyle: 'medium', timeStyle: 'short' }).format(
        new Date(at),
      ),
    taps: (taps) => {
      if (taps === 'closed') return say('taps-closed');
      if (taps === 'part-open') return say('taps-part-open');
      if (typeof taps.open !== 'number') return say('taps-named', { names: taps.open.join(', ') });
      return taps.open === 1 ? say('taps-one') : say('taps-many', { n: taps.open });
    },
  };
}

/** A local time with its offset, as answers carry it. */
export function timeWithOffset(date: Date): string {
  const pad = (value: number): string => String(Math.trunc(Math.abs(value))).padStart(2, '0');
  const offset = -date.getTimezoneOffset();
  const day = `${date.getFullYear()}-${pad(date.getMonth() + 1)}-${pad(date.getDate())}`;
  const clock = `${pad(date.getHours())}:${pad(date.getMinutes())}:${pad(date.getSeconds())}`;
  return `${day}T${clock}${offset < 0 ? '-' : '+'}${pad(offset / 60)}:${pad(offset % 60)}`;
}
