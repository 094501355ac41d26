import { editDistance } from '../ruleset/nearest.ts';
import {
  isOpen,
  type OpenPhrases,
  openPhrasesOf,
  type Synonyms,
  saidAmong,
} from './open-phrase.ts';

/** Something that can be answered: its id, what is shown, and other ways people say it. */
export interface Option {
  readonly id: string;
  readonly label: string;
  readonly alsoSaid: readonly string[];
}

/** Words of one language that carry no meaning of their own, and words that turn others round. */
export interface PlainWords {
  readonly filler: readonly string[];
  /** turn the next word round: "no smoke" */
  readonly not: readonly string[];
  /** turn round what follows across words that carry them on: "nothing smells burnt" */
  readonly denying: readonly string[];
  readonly carrying: readonly string[];
  /** put one more thing under the same denial: "no smoke or fire" */
  readonly or: readonly string[];
  /** words for the same thing, by the name under which open phrases use them */
  readonly synonyms: Synonyms;
}

type Synonymous = Pick<PlainWords, 'synonyms'>;

/** How well a typed text fits an option; a higher one is always the better. */
export const fits = { none: 0, someWords: 1, hints: 2, partOfIt: 3, says: 4, exactly: 5 } as const;
export type Fit = (typeof fits)[keyof typeof fits];

export interface Match {
  readonly fit: Fit;
  /** one: clear; several: near ones to ask back among; none: not understood */
  readonly options: readonly Option[];
}

/** Small letters and figures only, so that case, accents and punctuation do not matter. */
export function plain(text: string): string {
  return text
    .normalize('NFD')
    .replaceAll(/[\p{M}'’]/gu, '')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** The words of a text that have a meaning of their own. */
export const meantWords = (text: string, { filler }: Pick<PlainWords, 'filler'>): string[] =>
  plain(text)
    .split(' ')
    .filter((word) => !filler.includes(word));

/** The options that fit a typed text best, over labels, ids and other ways of saying it. */
export function match(text: string, options: readonly Option[], words: PlainWords): Match {
  const typed = plain(text);
  if (typed === '') return { fit: fits.none, options: [] };
  const ranked = options.map((option) => {
    const said = saidOf(option, words);
    return { option, ...rank(typed, { ...said, phrases: [said.id, ...said.phrases] }, words) };
  });
  const best = ranked.reduce<Rank>((a, b) => (isBetter(b, a) ? b : a), NONE);
  if (best.fit === fits.none) return { fit: fits.none, options: [] };
  const level = ranked.filter((one) => !isBetter(best, one));
  return { fit: best.fit, options: level.map(({ option }) => option) };
}

interface Rank {
  readonly fit: Fit;
  /** letters of the longest phrase said, or the share of the typed words found */
  readonly weight: number;
}

const isBetter = (a: Rank, b: Rank) => a.fit > b.fit || (a.fit === b.fit && a.weight > b.weight);

/** Ways of saying an option, made plain: whole phrases, and open ones. */
interface Said {
  readonly id: string;
  readonly phrases: readonly string[];
  readonly open: OpenPhrases;
}

// the same options are matched with every line
const kept = new WeakMap<Option, Said>();

function saidOf(option: Option, { synonyms }: Synonymous): Said {
  const known = kept.get(option);
  if (known) return known;
  const { id, label, alsoSaid } = option;
  const whole = alsoSaid.filter((said) => !isOpen(said));
  const said = {
    id: plain(id),
    phrases: [label, ...whole].map(plain),
    open: openPhrasesOf(alsoSaid.filter(isOpen), synonyms, plain),
  };
  kept.set(option, said);
  return said;
}

/**
 * How well a text made plain fits what is said for an option, single words apart. Its id is a name among machines, and
 * must be all of it.
 */
export function fitOf(typed: string, option: Option, words: PlainWords): Fit {
  const said = saidOf(option, words);
  return typed === said.id ? fits.exactly : phraseRank(typed, said, words).fit;
}

/** What is said by a text made plain: the phrases of each option that are in it, and whether open ones are sure of it. */
function phrasesSaid(typed: string, option: Option, words: PlainWords) {
  const { phrases, open } = saidOf(option, words);
  const whole = phrases.filter((phrase) => says(typed, phrase, words));
  return { option, whole, openly: saidOpenly(typed, open, words).some(({ isSure }) => isSure) };
}

/** Every option that a text says, but for one said only within the longer phrase of another ("no water pressure"). */
export function allSaid(text: string, options: readonly Option[], words: PlainWords): Option[] {
  const typed = plain(text);
  const said = options.map((option) => phrasesSaid(typed, option, words));
  const isWithin = (phrase: string, of: Option): boolean =>
    said.some(
      ({ option, whole }) =>
        option !== of && whole.some((other) => other !== phrase && holds(other, phrase)),
    );
  return said
    .filter(({ option, whole, openly }) => openly || whole.some((one) => !isWithin(one, option)))
    .map(({ option }) => option);
}

/** Whether one word alone speaks for the option: "off" among many others may speak of anything. */
export function isOneWord(text: string, option: Option, words: PlainWords): boolean {
  const { whole, openly } = phrasesSaid(plain(text), option, words);
  return !openly && whole.every((phrase) => !phrase.includes(' '));
}

/** Every word, or beginning of one, by which an option is said. */
export function wordsSaid(option: Option, words: Synonymous): string[] {
  const { phrases, open } = saidOf(option, words);
  const following = [...open.wordings.values()].flat().flatMap(({ rest }) => rest);
  return [...phrases.flatMap((phrase) => phrase.split(' ')), ...open.wordings.keys(), ...following];
}

const NONE: Rank = { fit: fits.none, weight: 0 };

function rank(typed: string, said: Said, words: PlainWords): Rank {
  const whole = phraseRank(typed, said, words);
  const meant = meantWords(typed, words);
  if (whole.fit > fits.none || hasNot(meant, words)) return whole;
  const known = said.phrases.flatMap((phrase) => phrase.split(' '));
  const share = meant.filter((word) => known.some((one) => same(word, one))).length / meant.length;
  return share >= 0.5 ? { fit: fits.someWords, weight: share } : NONE;
}

function phraseRank(typed: string, { phrases, open }: Said, words: PlainWords): Rank {
  if (phrases.includes(typed)) return { fit: fits.exactly, weight: 1 };
  const said = phrases.filter((phrase) => says(typed, phrase, words));
  if (said.length > 0) {
    return { fit: fits.says, weight: Math.max(...said.map((phrase) => phrase.length)) };
  }
  const openly = saidOpenly(typed, open, words);
  if (openly.some(({ isSure }) => isSure)) return { fit: fits.says, weight: 1 };
  const meant = meantWords(typed, words);
  if (!hasNot(meant, words) && phrases.some((phrase) => holds(phrase, meant.join(' ')))) {
    return { fit: fits.partOfIt, weight: 1 };
  }
  return openly.length > 0 ? { fit: fits.hints, weight: 0 } : NONE;
}

const hasNot = (meant: readonly string[], words: PlainWords): boolean =>
  meant.length === 0 || meant.some((word) => words.not.includes(word));

/** Whether the text holds the phrase as whole words, somewhere not turned round by the words before it. */
function says(typed: string, phrase: string, words: PlainWords): boolean {
  const [text, sought] = [` ${typed} `, ` ${phrase} `];
  for (let at = text.indexOf(sought); at !== -1; at = text.indexOf(sought, at + 1)) {
    const before = text
      .slice(Math.max(0, at - REACH_LETTERS), at)
      .trim()
      .split(' ');
    if (!isDenied(before, words)) return true;
  }
  return false;
}

/** No denial reaches farther; a page of text is read as fast as a line. */
const REACH_WORDS = 16;
const REACH_LETTERS = 160;

function saidOpenly(typed: string, open: OpenPhrases, words: PlainWords) {
  const spoken = typed.split(' ');
  return saidAmong(open, spoken, (i) =>
    isDenied(spoken.slice(Math.max(0, i - REACH_WORDS), i), words),
  );
}

/**
 * Whether the words before one turn it round. Only words known to carry a denial on may stand between: "no water and
 * smoke" denies no smoke.
 * @param others how many things may still stand between, each joined by an "or"
 */
function isDenied(
  before: readonly string[],
  words: PlainWords,
  others = 0,
  isNext = true,
): boolean {
  const last = before.at(-1);
  if (last === undefined) return false;
  if (isNext && words.not.includes(last)) return true;
  const text = ` ${before.join(' ')}`;
  if (words.denying.some((said) => text.endsWith(` ${said}`))) return true;
  const rest = before.slice(0, -1);
  if (words.carrying.includes(last)) return isDenied(rest, words, others, false);
  if (words.or.includes(last)) return isDenied(rest, words, others + 1, false);
  return others > 0 && isDenied(rest, words, others - 1);
}

const holds = (text: string, phrase: string) => ` ${text} `.includes(` ${phrase} `);

/** The same word, allowing one slip in words of six letters ("small" is not "smell") and two in long ones. */
function same(a: string, b: string): boolean {
  if (a === b) return true;
  const slips = a.length < 6 ? 0 : a.length < 9 ? 1 : 2;
  return slips > 0 && Math.abs(a.length - b.length) <= slips && editDistance(a, b) <= slips;
}
