import type { Taps } from '../case/taps.ts';
import {
  inPressureUnit,
  inVolumeUnit,
  numberText,
  siUnits,
  type Units,
} from '../ruleset/figures.ts';
import type { Question } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';

/** Fills the {holes} of a phrase. A missing phrase shows its key, so that a hole in the words is seen. */
export function say(
  words: Words,
  key: string,
  holes: Readonly<Record<string, string | number>> = {},
): string {
  return fill(words.phrases[key] ?? key, holes);
}

export function fill(pattern: string, holes: Readonly<Record<string, string | number>>): string {
  return pattern.replace(/\{(\w+)\}/g, (whole, hole: string) => String(holes[hole] ?? whole));
}

/** The probability scale of the project, in words. */
export function sureness(words: Words, probability: number): string {
  const scale: readonly (readonly [number, string])[] = [
    [0.95, 'almost-certain'],
    [0.85, 'very-likely'],
    [0.65, 'likely'],
    [0.35, 'about-even'],
    [0.1, 'possible'],
    [0, 'unlikely'],
  ];
  return say(words, scale.find(([least]) => probability >= least)?.[1] ?? 'unlikely');
}

export function sayTaps(words: Words, taps: Taps): string {
  if (taps === 'closed') return say(words, 'taps-closed');
  if (taps === 'part-open') return say(words, 'taps-part-open');
  if (typeof taps.open !== 'number')
    return say(words, 'taps-named', { names: taps.open.join(', ') });
  return taps.open === 1 ? say(words, 'taps-one') : say(words, 'taps-many', { n: taps.open });
}

/** An answer as it was given, in words: labels for ids, figures in the reader's unit with its name. */
export function sayValue(
  words: Words,
  id: string,
  question: Question,
  value: unknown,
  units: Units = siUnits,
): string {
  const label = (answer: unknown) =>
    words.questions[id]?.answers[String(answer)]?.label ?? String(answer);
  if (Array.isArray(value))
    return value.length === 0 ? say(words, 'none') : value.map(label).join(', ');
  if (typeof value === 'string') return label(value);
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value)
      .map(([key, v]) => {
        if (typeof v === 'number') return sayFigure(key, v, units);
        if (Array.isArray(v)) return v.join(' ');
        return typeof v === 'object' && v !== null ? sayTaps(words, v as Taps) : label(v);
      })
      .join(', ');
  }
  if (typeof value !== 'number') return String(value);
  const figure = numberText(value, MOST_DIGITS, units.language, true);
  return question.kind === 'hours' ? `${figure} h` : figure;
}

/** As fine as an answer is kept. */
const MOST_DIGITS = 4;
/** Other units than the one it is kept in come from a division; a tenth is as fine as anyone reads. */
const DIVIDED_DIGITS = 1;

function sayFigure(key: string, value: number, { pressure, volume, language }: Units): string {
  const said = (figure: number, unit: string, digits = MOST_DIGITS) =>
    `${numberText(figure, digits, language, true)} ${unit}`;
  if (key === 'bar' || key === 'lostBar') {
    const digits = pressure === 'bar' ? MOST_DIGITS : DIVIDED_DIGITS;
    return said(inPressureUnit(value, pressure), pressure, digits);
  }
  if (key === 'litres') {
    return said(inVolumeUnit(value, volume), volume, volume === 'L' ? MOST_DIGITS : DIVIDED_DIGITS);
  }
  const symbols: Record<string, string> = {
    minutes: 'min',
    seconds: 's',
    onS: 's',
    offS: 's',
    m: 'm',
  };
  return said(value, symbols[key] ?? key);
}
