import type { Taps } from '../case/taps.ts';
import { numberText, pressureText, type Units, volumeText } from '../ruleset/figures.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import type { Given, Step } from './step.ts';

type Say = (key: string, holes?: Readonly<Record<string, string | number>>) => string;

/** What a step is called in a list of answers: "Smell", "Gauges, all taps shut". */
export function stepText(step: Step, words: Words, say: Say): string {
  const short = words.questions[step.question]?.short ?? step.question;
  return step.taps === undefined ? short : `${short}, ${tapsText(step.taps, say)}`;
}

/** A tap state in words. */
function tapsText(taps: Taps, say: Say): string {
  if (taps === 'closed') return say('taps-closed');
  if (taps === 'part-open') return say('taps-part-open');
  if (typeof taps.open !== 'number') return say('taps-named', { names: taps.open.join(', ') });
  return taps.open === 1 ? say('taps-one') : say('taps-many', { n: taps.open });
}

/** One answer in words, in the person's units: "Rotten eggs", "G1 3.4 bar, G2 not known". */
export function answerText(
  { step, value }: Given,
  rules: RuleSet,
  words: Words,
  units: Units,
  say: Say,
): string {
  const unknown = say('not-known-value');
  const labels = words.questions[step.question]?.answers ?? {};
  const inWords = (id: string) => labels[id]?.label ?? id;
  const plain = (one: number): string => numberText(one, 4, units.language, true);
  const text = (field: string, one: unknown): string => {
    if (one === 'unknown') return unknown;
    if (typeof one === 'string') return inWords(one);
    if (typeof one !== 'number') return JSON.stringify(one);
    if (/bar$/i.test(field)) return pressureText(one, units);
    if (field === 'litres') return volumeText(one, units);
    const unit = { seconds: ' s', onS: ' s', offS: ' s', minutes: ' min', m: ' m' }[field];
    return `${plain(one)}${unit ?? ''}`;
  };
  if (Array.isArray(value)) {
    return value.length === 0 ? say('none') : value.map((one) => text('', one)).join(', ');
  }
  if (typeof value !== 'object' || value === null) {
    return typeof value === 'number' && rules.questions[step.question]?.kind === 'hours'
      ? `${plain(value)} h`
      : text('', value);
  }
  const rows = Object.entries(value).flatMap(([field, one]) => {
    if (field === 'taps' && step.taps !== undefined) return [];
    if (field === 'bar' || field === 'psi' || field === 'kPa') {
      if (one === 'unknown' || typeof one === 'number') return [text(field, one)];
      return Object.entries(one as Record<string, unknown>).map(
        ([gauge, read]) =>
          `${gauge} ${field === 'bar' || read === 'unknown' ? text('bar', read) : `${plain(Number(read))} ${field}`}`,
      );
    }
    if (field === 'pump') return [say(one === 'on' ? 'pump-runs-now' : 'pump-rests-now')];
    if (Array.isArray(one)) return [one.join(', ')];
    const known = ['litres', 'seconds', 'minutes', 'lostBar', 'm', 'result'].includes(field);
    return [known ? text(field, one) : `${field} ${text(field, one)}`];
  });
  return rows.join(', ');
}
