import type { Taps } from '../../shared/case/taps.ts';
import {
  dropDigits,
  gaugeDigits,
  inPressureUnit,
  inVolumeUnit,
  looseFigure,
  numberText,
} from '../../shared/ruleset/figures.ts';
import type { Settings } from './settings.ts';
import { regionOf, timeText } from './time-text.ts';
import type { Say } from './words.ts';

/** Numbers, pressures and days as the reader wants them. */
export interface Format {
  /** "2.4 bar" */
  readonly reading: (bar: number) => string;
  /** "10 bar", for what is set or printed on a dial */
  readonly setting: (bar: number) => string;
  /** "2.4" */
  readonly readingFigure: (bar: number) => string;
  /** "2", for round pressures along a scale */
  readonly scaleFigure: (bar: number) => string;
  readonly drop: (bar: number) => string;
  readonly flow: (lpm: number) => string;
  /** "24 litres" */
  readonly volume: (litres: number) => string;
  readonly number: (value: number, digits?: number) => string;
  /** a number as it was given: "9000", "1.25" */
  readonly plain: (value: number) => string;
  readonly percent: (share: number) => string;
  /** "25 November 2026" */
  readonly day: (day: string) => string;
  readonly time: (at: string) => string;
  readonly taps: (taps: Taps) => string;
  /** the key of the pressure unit's name */
  readonly unitKey: string;
}

export function formatOf(settings: Settings, say: Say): Format {
  const { language, pressure, volume } = settings;
  const number = (value: number, digits = 1): string => numberText(value, digits, language);
  const pressureIn = (bar: number, digits: number): string =>
    number(inPressureUnit(bar, pressure), digits);
  const withUnit = (figure: string): string =>
    say('figure-and-unit', { figure, unit: say(`unit-${pressure.toLowerCase()}`) });
  const days = regionOf(language);
  const flowUnit = { L: 'unit-lpm', 'US gal': 'unit-us-gpm', 'imp gal': 'unit-imp-gpm' }[volume];
  return {
    unitKey: `unit-${pressure.toLowerCase()}`,
    reading: (bar) => withUnit(pressureIn(bar, gaugeDigits[pressure])),
    setting: (bar) => withUnit(looseFigure(bar, settings, dropDigits)),
    readingFigure: (bar) => pressureIn(bar, gaugeDigits[pressure]),
    scaleFigure: (bar) => pressureIn(bar, 0),
    drop: (bar) => withUnit(pressureIn(bar, (bar >= 1 ? gaugeDigits : dropDigits)[pressure])),
    flow: (lpm) =>
      say('figure-and-unit', { figure: number(inVolumeUnit(lpm, volume)), unit: say(flowUnit) }),
    volume: (litres) =>
      say('figure-and-unit', {
        figure: numberText(inVolumeUnit(litres, volume), volume === 'L' ? 1 : 0, language, true),
        unit: say(`unit-${volume.replace(' ', '-').toLowerCase()}`),
      }),
    number,
    plain: (value) => numberText(value, 4, language, true),
    percent: (share) =>
      new Intl.NumberFormat(language, { style: 'percent', maximumFractionDigits: 0 }).format(share),
    day: (day) =>
      new Intl.DateTimeFormat(days, { dateStyle: 'long', timeZone: 'UTC' }).format(
        new Date(`${day.slice(0, 10)}T00:00:00Z`),
      ),
    time: (at) => timeText(at, language),
    taps: (taps) => {
      if (taps === 'closed') return say('taps-closed');
      if (taps === 'part-open') return say('taps-part-open');
      if (typeof taps.open !== 'number') return say('taps-named', { names: taps.open.join(', ') });
      return taps.open === 1 ? say('taps-one') : say('taps-many', { n: taps.open });
    },
  };
}
