/**
 * Ways of saying a thing by words that may stand anywhere in a line, in any order: "{smells} burn…/wires -toast ?".
 * Every part must be there, each at a place of its own; "/" parts words of which one will do, "…" ends the beginning of
 * a word, "_" joins words that stand together, "{smells}" is a list of its own under `synonyms`, a part after "-" must
 * not be there, and "?" at the end says that it may mean this and is to be asked back.
 */
export interface OpenPhrase {
  readonly wanted: readonly string[];
  readonly unwanted: readonly string[];
  readonly isSure: boolean;
}

/** Words of which one will do stand for their part of a phrase, found by the first word or its beginning. */
interface Wording {
  readonly part: string;
  /** words that must follow */
  readonly rest: readonly string[];
  /** whether the last word may go on */
  readonly begins: boolean;
}

export interface OpenPhrases {
  readonly phrases: readonly OpenPhrase[];
  readonly wordings: ReadonlyMap<string, readonly Wording[]>;
  /** letters of the longest of their first words */
  readonly longest: number;
}

export type Synonyms = Readonly<Record<string, readonly string[]>>;

const MARKED = /[…/{]|\s-|\?$|_/;

/** A phrase without any mark is one to be said word for word. */
export const isOpen = (said: string): boolean => MARKED.test(said);

export function openPhrasesOf(
  said: readonly string[],
  synonyms: Synonyms,
  plain: (text: string) => string,
): OpenPhrases {
  const wordings = new Map<string, Wording[]>();
  const seen = new Set<string>();
  const learn = (part: string): void => {
    if (seen.has(part)) return;
    seen.add(part);
    for (const one of wordsOf(part, synonyms)) {
      const [first = '', ...rest] = plain(one).split(' ');
      const known = wordings.get(first) ?? [];
      wordings.set(first, [...known, { part, rest, begins: one.endsWith('…') }]);
    }
  };
  const phrases = said.map((one) => {
    const parts = one.split(/\s+/).filter((part) => part !== '?');
    const wanted = parts.filter((part) => !part.startsWith('-'));
    const unwanted = parts.filter((part) => part.startsWith('-')).map((part) => part.slice(1));
    for (const part of [...wanted, ...unwanted]) learn(part);
    return { wanted, unwanted, isSure: !one.endsWith('?') };
  });
  const longest = Math.max(0, ...[...wordings.keys()].map((word) => word.length));
  return { phrases, wordings, longest };
}

/** "{burnt}/wires": everything that will do for this part. */
const wordsOf = (part: string, synonyms: Synonyms): string[] =>
  part.split('/').flatMap((one) => {
    const list = /^\{(.+)\}$/.exec(one)?.[1];
    return list === undefined ? [one.replaceAll('_', ' ')] : (synonyms[list] ?? []);
  });

/** More places of one part than a phrase has parts tell nothing more. */
const ENOUGH = 6;

/** Those of the phrases that the words of a line say. @param isDenied whether the words before a place turn it round */
export function saidAmong(
  open: OpenPhrases,
  spoken: readonly string[],
  isDenied: (at: number) => boolean,
): OpenPhrase[] {
  const places = placesIn(spoken, open, isDenied);
  return open.phrases.filter(
    ({ wanted, unwanted }) =>
      unwanted.every((part) => !places.has(part)) &&
      haveOwn(wanted.map((part) => places.get(part) ?? [])),
  );
}

/** Where each part stands, none where it stands only denied. */
function placesIn(
  spoken: readonly string[],
  { wordings, longest }: OpenPhrases,
  isDenied: (at: number) => boolean,
): Map<string, number[]> {
  const places = new Map<string, number[]>();
  spoken.forEach((word, i) => {
    for (let length = 1; length <= Math.min(word.length, longest); length++) {
      for (const wording of wordings.get(word.slice(0, length)) ?? []) {
        const known = places.get(wording.part) ?? [];
        if (known.length >= ENOUGH || known.at(-1) === i || !goesOn(wording, spoken, i, length)) {
          continue;
        }
        places.set(wording.part, isDenied(i) ? known : [...known, i]);
      }
    }
  });
  return places;
}

/** Whether a wording whose first word has been found up to a length is there as a whole. */
function goesOn(
  { rest, begins }: Wording,
  spoken: readonly string[],
  at: number,
  length: number,
): boolean {
  if (rest.length === 0) return begins || length === spoken[at]?.length;
  return (
    length === spoken[at]?.length &&
    rest.every((word, i) => {
      const said = spoken[at + 1 + i];
      return said === word || (begins && i === rest.length - 1 && said?.startsWith(word));
    })
  );
}

/** Whether each can have a place that no other has. */
function haveOwn(places: readonly (readonly number[])[], taken: readonly number[] = []): boolean {
  const [first, ...others] = places;
  if (!first) return true;
  return first.some((place) => !taken.includes(place) && haveOwn(others, [...taken, place]));
}
