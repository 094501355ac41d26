import { sayTaps, sayValue } from '../diagnosis/say.ts';
import type { Units } from '../ruleset/figures.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import type { Given, Step } from './step.ts';

/** What a step is called in a list of answers: "Smell", "Gauges, all taps shut". */
export function stepText({ question, taps }: Step, words: Words): string {
  const short = words.questions[question]?.short ?? question;
  return taps === undefined ? short : `${short}, ${sayTaps(words, taps)}`;
}

/** One answer in words, in the person's units: "Rotten eggs", "G1 3.4 bar, G2 not known". */
export function answerText(
  { step, value }: Given,
  rules: RuleSet,
  words: Words,
  units: Units,
): string {
  const question = rules.questions[step.question];
  if (!question) return String(value);
  return sayValue(words, step.question, question, withoutTaps(value, step), units);
}

/** Readings are named by their tap state, which need not be told twice. */
function withoutTaps(value: unknown, { taps }: Step): unknown {
  if (taps === undefined || typeof value !== 'object' || value === null) return value;
  const { taps: _, ...rest } = value as { readonly taps?: unknown };
  return rest;
}
