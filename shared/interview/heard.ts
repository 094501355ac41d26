import type { Words } from '../ruleset/words.ts';
import {
  type Fit,
  fitOf,
  fits,
  meantWords,
  type Option,
  type PlainWords,
  plain,
  wordsSaid,
} from './match.ts';
import { type Spelling, spellingOf, withoutSlips } from './slips.ts';

/** The words of one language with which danger signs are heard. */
export interface Hearing extends PlainWords {
  /** made when it is first needed: a line without slips needs none */
  readonly spelling: () => Spelling;
  /** "last year", "what if": said of what may be over, or is only asked about */
  readonly doubtful: readonly string[];
}

export interface Heard {
  readonly signs: readonly Option[];
  readonly fit: Fit;
}

/**
 * Danger signs said in a line: better to ask once too often than to miss one. All of them are told that are said
 * clearly; where there is none, those that may be meant, and those that a slip of the finger hides.
 */
export function signsIn(line: string, dangers: readonly Option[], words: Hearing): Heard {
  // "no, smoke from the motor": a "no" speaks of its own part of the sentence only
  const parts = [...new Set([line, ...line.split(/[,.;:!?]/)].map(plain))].filter(Boolean);
  const asTyped = signsAmong(parts, dangers, words);
  if (asTyped.signs.length > 0) return asTyped;
  const mended = parts.map((part) => withoutSlips(part.split(' '), words.spelling()).join(' '));
  const { signs } = signsAmong(mended, dangers, words);
  return { signs, fit: signs.length > 0 ? fits.hints : fits.none };
}

function signsAmong(parts: readonly string[], dangers: readonly Option[], words: Hearing): Heard {
  const [whole = '', ...rest] = parts;
  const heard = dangers.map((sign) => {
    // among others a part is never all that was said
    const inParts = highest(rest.map((part) => lower(ownFit(part, sign, words), fits.says)));
    return { sign, fit: highest([ownFit(whole, sign, words), inParts]) };
  });
  const best = highest(heard.map(({ fit }) => fit));
  const enough = lower(best, fits.says);
  const signs = best === fits.none ? [] : heard.filter(({ fit }) => fit >= enough);
  const isDoubtful = words.doubtful.some((said) => ` ${whole} `.includes(` ${said} `));
  return {
    signs: signs.map(({ sign }) => sign),
    fit: isDoubtful ? lower(best, fits.hints) : best,
  };
}

const lower = (a: Fit, b: Fit): Fit => (a < b ? a : b);
const highest = (all: readonly Fit[]): Fit =>
  all.reduce<number>((a, b) => Math.max(a, b), fits.none) as Fit;

function ownFit(part: string, sign: Option, words: Hearing): Fit {
  const fit = fitOf(part, sign, words);
  return fit === fits.hints || isOwn(part, fit, words) ? fit : fits.none;
}

/** Said in so many words, or in several of them; one word of an answer ("weak") may speak of anything. */
export const isOwn = (line: string, fit: number, words: PlainWords): boolean =>
  fit >= fits.says || (fit === fits.partOfIt && meantWords(line, words).length > 1);

/**
 * How words are spelt, made when it is first needed. The words that the rule set itself uses are none of them a slip of
 * another.
 */
export function spellingOnce(words: Words, dangers: readonly Option[]): () => Spelling {
  let spelling: Spelling | undefined;
  return () => {
    spelling ??= spellingOf(
      plain(JSON.stringify(words)).split(' '),
      dangers.flatMap((sign) => wordsSaid(sign, words)),
    );
    return spelling;
  };
}
