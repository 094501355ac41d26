import type { Taps } from '../case/taps.ts';
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

/** An answer as it was given, in words: labels for ids, figures with their unit. */
export function sayValue(words: Words, id: string, question: Question, value: unknown): string {
  const label = (answer: unknown) =>
    words.questions[id]?.answers[String(answer)]?.label ?? String(answer);
  if (Array.isArray(value))
    return value.length === 0 ? say(words, 'none') : value.map(label).join(', ');
  if (typeof value === 'string') return label(value);
  if (typeof value === 'object' && value !== null) {
    const units: Record<string, string> = {
      bar: 'bar',
      lostBar: 'bar',
      minutes: 'min',
      litres: 'L',
      seconds: 's',
      onS: 's',
      offS: 's',
      m: 'm',
    };
    return Object.entries(value)
      .map(([key, v]) =>
        typeof v === 'number'
          ? `${v} ${units[key] ?? key}`
          : Array.isArray(v)
            ? v.join(' ')
            : label(v),
      )
      .join(', ');
  }
  return question.kind === 'hours' ? `${String(value)} h` : String(value);
}
