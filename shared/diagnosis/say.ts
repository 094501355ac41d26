import type { Audience } from '../case/answer.ts';
import type { Taps } from '../case/taps.ts';
import { toBar } from '../hydraulics/units.ts';
import {
  flowText,
  inPressureUnit,
  inVolumeUnit,
  numberText,
  pressureUnits,
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

/** What is opened and shut before the gauges are read; an agent reads it aloud. Null for taps that have names. */
export function sayReadings(
  words: Words,
  taps: Taps | undefined,
  audience: Audience,
): string | null {
  const aloud = audience === 'agent' ? '-aloud' : '';
  if (taps === 'closed') return say(words, `ask-readings-closed${aloud}`);
  if (typeof taps !== 'object' || typeof taps.open !== 'number') return null;
  return taps.open === 1
    ? say(words, `ask-readings-one${aloud}`)
    : say(words, `ask-readings-open${aloud}`, { n: taps.open });
}

/** An answer as it was given, in words: labels for ids, figures in the reader's unit with its name. */
export function sayValue(
  words: Words,
  id: string,
  question: Question,
  value: unknown,
  units: Units = siUnits,
): string {
  const label = (answer: unknown): string =>
    answer === 'unknown'
      ? say(words, 'not-known-value')
      : (words.questions[id]?.answers[String(answer)]?.label ?? String(answer));
  if (Array.isArray(value))
    return value.length === 0 ? say(words, 'none') : value.map(label).join(', ');
  if (typeof value === 'object' && value !== null) {
    const fields = Object.entries(value);
    if (question.kind === 'dates') return fields.map((one) => one.join(' ')).join(', ');
    if (question.kind === 'water-test')
      return fields.map(([field, one]) => sayTested(words, field, one, units)).join(', ');
    return fields.flatMap(([field, one]) => sayField(words, field, one, units, label)).join(', ');
  }
  if (typeof value !== 'number') return label(value);
  const figure = numberText(value, MOST_DIGITS, units.language, true);
  return question.kind === 'hours' ? `${figure} h` : figure;
}

/** As fine as an answer is kept. */
const MOST_DIGITS = 4;
/** Other units than the one it is kept in come from a division; a tenth is as fine as anyone reads. */
const DIVIDED_DIGITS = 1;

/** One field of a measured answer. */
function sayField(
  words: Words,
  field: string,
  value: unknown,
  units: Units,
  label: (answer: unknown) => string,
): string | string[] {
  const unit = pressureUnits.find((one) => one === field);
  if (unit) {
    const read = (one: unknown): string =>
      typeof one === 'number' ? sayFigure('bar', toBar[unit](one), units) : label(one);
    if (typeof value !== 'object' || value === null) return read(value);
    return Object.entries(value).map(([gauge, one]) => `${gauge} ${read(one)}`);
  }
  if (field === 'taps') return sayTaps(words, value === 'open' ? { open: 1 } : (value as Taps));
  if (field === 'pump') return say(words, value === 'on' ? 'pump-runs-now' : 'pump-rests-now');
  if (typeof value === 'number') return sayFigure(field, value, units);
  return Array.isArray(value) ? value.join(' ') : label(value);
}

/** One figure of a water test, by the words that ask for it. */
function sayTested(words: Words, field: string, value: unknown, { language }: Units): string {
  const asked = say(words, `ask-test-${field.toLowerCase()}`);
  if (typeof value === 'number')
    return `${asked}: ${numberText(value, MOST_DIGITS, language, true)}`;
  return `${asked} ${say(words, value === 'present' ? 'yes' : 'no')}`;
}

function sayFigure(key: string, value: number, units: Units): string {
  const { pressure, volume, language } = units;
  const said = (figure: number, unit: string, digits = MOST_DIGITS) =>
    `${numberText(figure, digits, language, true)} ${unit}`;
  if (key === 'bar' || key === 'lostBar') {
    const digits = pressure === 'bar' ? MOST_DIGITS : DIVIDED_DIGITS;
    return said(inPressureUnit(value, pressure), pressure, digits);
  }
  if (key === 'flowLpm') return flowText(value, units, DIVIDED_DIGITS);
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

/** What a job is called to whoever listens. */
export function jobName(words: Words, job: string, audience: Audience): string {
  const said = words.jobs[job];
  return (audience === 'technician' ? said?.technicianName : undefined) ?? said?.name ?? job;
}
