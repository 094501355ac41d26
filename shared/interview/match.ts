import { editDistance } from '../ruleset/nearest.ts';

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
}

/** How well a typed text fits an option; a higher one is always the better. */
export const fits = { none: 0, someWords: 1, partOfIt: 2, says: 3, exactly: 4 } as const;
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
  const ranked = options.map((option) => ({ option, ...rank(typed, option, words) }));
  const best = ranked.reduce<Rank>((a, b) => (isBetter(b, a) ? b : a), {
    fit: fits.none,
    weight: 0,
  });
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

/** A word of an open phrase: each of these will do, whole or as the beginning of one. */
type Either = readonly { readonly text: string; readonly begins: boolean }[];

/** Ways of saying an option, made plain: whole phrases, and open ones. */
interface Said {
  readonly phrases: readonly string[];
  readonly open: readonly (readonly Either[])[];
}

// the same options are matched with every line
const kept = new WeakMap<Option, Said>();

function saidOf(option: Option): Said {
  const known = kept.get(option);
  if (known) return known;
  const whole = option.alsoSaid.filter((said) => !isOpen(said));
  const said = {
    phrases: [option.id, option.label, ...whole].map(plain),
    open: option.alsoSaid.filter(isOpen).map((said) => said.split(' ').map(eitherOf)),
  };
  kept.set(option, said);
  return said;
}

function rank(typed: string, option: Option, words: PlainWords): Rank {
  const { phrases, open } = saidOf(option);
  if (phrases.includes(typed)) return { fit: fits.exactly, weight: 1 };
  const said = phrases.filter((phrase) => says(typed, phrase, words));
  if (said.length > 0) {
    return { fit: fits.says, weight: Math.max(...said.map((phrase) => phrase.length)) };
  }
  if (open.some((all) => saysAll(typed, all, words))) {
    return { fit: fits.says, weight: 1 };
  }
  const meant = meantWords(typed, words);
  if (meant.length === 0 || meant.some((word) => words.not.includes(word))) {
    return { fit: fits.none, weight: 0 };
  }
  if (phrases.some((phrase) => holds(phrase, meant.join(' ')))) {
    return { fit: fits.partOfIt, weight: 1 };
  }
  const known = phrases.flatMap((phrase) => phrase.split(' '));
  const share = meant.filter((word) => known.some((one) => same(word, one))).length / meant.length;
  return share >= 0.5 ? { fit: fits.someWords, weight: share } : { fit: fits.none, weight: 0 };
}

/** Whether the text holds the phrase as whole words, somewhere not turned round by the words before it. */
function says(typed: string, phrase: string, words: PlainWords): boolean {
  const pieces = ` ${typed} `.split(` ${phrase} `);
  return pieces.slice(1).some(
    (_, i) =>
      !isDenied(
        pieces
          .slice(0, i + 1)
          .join(` ${phrase} `)
          .trim()
          .split(' '),
        words,
      ),
  );
}

/** Words that may stand anywhere in the text, "smel…/stink… burn…": "…" ends a beginning, "/" parts what will do. */
const isOpen = (said: string): boolean => /[…/]/.test(said);

const eitherOf = (said: string): Either =>
  said.split('/').map((one) => ({ text: plain(one), begins: one.endsWith('…') }));

/** Whether the text has each of the words of an open phrase, none of them turned round by the words before it. */
function saysAll(typed: string, phrase: readonly Either[], words: PlainWords): boolean {
  const spoken = typed.split(' ');
  return phrase.every((either) => {
    const isWanted = (word: string): boolean =>
      either.some(({ text, begins }) => (begins ? word.startsWith(text) : word === text));
    return spoken.some((word, i) => isWanted(word) && !isDenied(spoken.slice(0, i), words));
  });
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
