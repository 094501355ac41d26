import type { Units } from '../ruleset/figures.ts';
import type { Words } from '../ruleset/words.ts';
import { isThin, meantBySlips } from './asked-back.ts';
import { type OtherQuestion, othersOf, questionFor } from './elsewhere.ts';
import type { Field, Filled } from './form.ts';
import { type Heard, type Hearing, isOwn, signsIn, spellingOnce } from './heard.ts';
import {
  allSaid,
  fitOf,
  fits,
  type Match,
  match,
  meantWords,
  type Option,
  plain,
} from './match.ts';
import { piecesOf } from './pieces.ts';
import { readFigure } from './units.ts';

/** What can be typed at any question instead of an answer; the words for each stand in the rule set ("typed-back"). */
const askCommands = ['why', 'how', 'help', 'back', 'keep', 'change', 'result', 'save'] as const;
/** The same at a step of a job: `lost`, something no longer holds; `alarm`, there is a danger, which one is asked then. */
export const workCommands = ['help', 'how', 'back', 'save', 'lost', 'alarm'] as const;
/** The same in the monthly round. */
export const roundCommands = ['help', 'back', 'save'] as const;
export type Command = (typeof askCommands)[number] | (typeof workCommands)[number];

/** What a typed line comes to. */
export type Reply =
  /** `isOpen`: said in words where all that fits is asked for, so that there may be more; a danger does not wait */
  | {
      readonly kind: 'filled';
      readonly value: Filled;
      readonly units?: Partial<Units>;
      readonly isOpen?: true;
    }
  | { readonly kind: 'unknown' }
  | { readonly kind: Command }
  /** a danger sign; when not sure, the person is asked whether it was meant, or else what was said `otherwise` */
  | {
      readonly kind: 'danger';
      readonly signs: readonly Option[];
      readonly sure: boolean;
      readonly otherwise: Reply;
    }
  /** several options could be meant; `found` are those already clear, `lost` what was not understood of the line */
  | {
      readonly kind: 'near';
      readonly options: readonly Option[];
      readonly found: readonly string[];
      readonly lost?: string;
    }
  /** what was said answers another question, told by its short name */
  | { readonly kind: 'elsewhere'; readonly question: string }
  | { readonly kind: 'unclear' };

/** The words of one language with which typed lines are read. */
export interface Typing extends Hearing {
  readonly commands: ReadonlyMap<Command, readonly string[]>;
  readonly unknown: readonly string[];
  readonly none: readonly string[];
  readonly and: readonly string[];
  readonly dangers: readonly Option[];
  readonly others: readonly OtherQuestion[];
}

/** @param commands those that have a meaning in this conversation */
export function typingOf(
  words: Words,
  dangers: readonly Option[],
  commands: readonly Command[] = askCommands,
): Typing {
  const list = (key: string) =>
    (words.phrases[key] ?? '').split('|').map((one) => one.trim().toLowerCase());
  // where no reasons are given, who asks for them is helped on
  const helped = commands.includes('why') ? [] : list('typed-why');
  const said = (command: Command) =>
    command === 'help' ? [...list('typed-help'), ...helped] : list(`typed-${command}`);
  return {
    commands: new Map(commands.map((command) => [command, said(command)])),
    unknown: list('typed-unknown'),
    none: list('typed-none'),
    and: list('typed-and'),
    filler: list('typed-filler').map(plain),
    not: list('typed-not').map(plain),
    denying: list('typed-denying').map(plain),
    carrying: list('typed-carrying').map(plain),
    or: list('typed-or').map(plain),
    doubtful: list('typed-doubtful').map(plain),
    synonyms: words.synonyms,
    spelling: spellingOnce(words, dangers),
    dangers,
    // work and the monthly round ask other things, and answer none of these
    others: commands.includes('why') ? othersOf(words) : [],
  };
}

/** Nobody says as much in one line, in characters; of a longer one only a danger is heard. */
const LONGEST_LINE = 5000;

/** Reads one typed line as the answer to a field, a command, or a danger sign, which may be said at any moment. */
export function readReply(line: string, field: Field, typing: Typing, units: Units): Reply {
  const isTooLong = line.length > LONGEST_LINE;
  const isAnswer =
    !isTooLong && 'options' in field && match(line, field.options, typing).fit === fits.exactly;
  const command = isAnswer ? null : commandIn(line, typing);
  if (command) return command;
  const { reply, fit } = isTooLong ? unclear : readField(line, field, typing, units);
  const signs = dangersIn(line, field, typing);
  if (signs.signs.length === 0) {
    const isTaken = isTooLong || isOwn(line, fit, typing) || reply.kind === 'near';
    const other = isTaken ? null : questionFor(line, field, typing.others, typing);
    return other === null ? reply : { kind: 'elsewhere', question: other };
  }
  const sure = signs.fit === fits.exactly && fit < fits.exactly;
  return { kind: 'danger', signs: signs.signs, sure, otherwise: reply };
}

function commandIn(line: string, typing: Typing): Reply | null {
  const typed = line.trim().toLowerCase();
  const [command] = [...typing.commands].find(([, said]) => said.includes(typed)) ?? [];
  if (command) return { kind: command };
  return isOneOf(typed, typing.unknown) ? { kind: 'unknown' } : null;
}

/** Danger signs said in a line; those that the question itself asks for are answers to it. */
function dangersIn(line: string, field: Field, typing: Typing): Heard {
  const asked = 'options' in field ? field.options.map(({ id }) => id) : [];
  return signsIn(
    line,
    typing.dangers.filter(({ id }) => !asked.includes(id)),
    typing,
  );
}

interface Read {
  readonly reply: Reply;
  readonly fit: number;
}

const unclear: Read = { reply: { kind: 'unclear' }, fit: fits.none };
const filled = (value: Filled, units?: Partial<Units>): Read => ({
  reply: { kind: 'filled', value, ...(units && { units }) },
  fit: fits.exactly,
});

function readField(line: string, field: Field, typing: Typing, units: Units): Read {
  switch (field.kind) {
    case 'one':
      return readOne(line, field, typing, units);
    case 'many':
      return readMany(line, field, typing);
    case 'figure': {
      const figure = readFigure(line, field.quantity, units);
      if (figure) return filled(figure.value, figure.units);
      return field.orWords.length > 0 ? ofMatch(match(line, field.orWords, typing)) : unclear;
    }
    case 'note':
      return { reply: { kind: 'filled', value: line.trim() }, fit: fits.none };
    case 'day':
      return /^\d{4}-\d{2}-\d{2}$/.test(line.trim()) ? filled(line.trim()) : unclear;
  }
}

function readOne(
  line: string,
  field: Extract<Field, { kind: 'one' }>,
  typing: Typing,
  units: Units,
): Read {
  const byNumber = numbered(line, field.options);
  if (byNumber) return filled(byNumber.id);
  if (field.orFigure) {
    const figure = readFigure(line, field.orFigure, units);
    if (figure) return filled(figure.value, figure.units);
  }
  const whole = match(line, field.options, typing);
  if (whole.options.length === 0) return mended(line, field.options, typing);
  const read = ofMatch(whole);
  if (read.reply.kind !== 'filled' || whole.fit === fits.exactly) return read;
  if (isThin(line, whole.options, typing))
    return { reply: near(whole.options, [], []), fit: whole.fit };
  const lost = piecesOf(line, field.options, typing.and).filter(
    (piece) =>
      meantWords(piece, typing).length > 0 &&
      match(piece, field.options, typing).options.length === 0,
  );
  return lost.length === 0 ? read : { reply: near(whole.options, [], lost), fit: whole.fit };
}

/** What nobody understood may be a slip of the finger; what it then says is asked back. */
function mended(line: string, options: readonly Option[], typing: Typing): Read {
  const meant = meantBySlips(line, options, typing);
  return meant.length === 0 ? unclear : { reply: near(meant, [], []), fit: fits.someWords };
}

const near = (
  options: readonly Option[],
  found: readonly string[],
  lost: readonly string[],
): Reply => ({
  ...{ kind: 'near', options, found },
  ...(lost.length > 0 && { lost: lost.map((piece) => piece.trim()).join(', ') }),
});

/** Several answers in one line: numbers, or words parted by commas or "and". */
function readMany(line: string, field: Extract<Field, { kind: 'many' }>, typing: Typing): Read {
  const { options } = field;
  // "nothing" may be an answer of its own ("nothing, just a check"): then it is not left out by saying nothing
  const isWhole = match(line, options, typing).fit === fits.exactly;
  if (!isWhole && (line.trim() === '' || isOneOf(line, typing.none))) {
    const nothing = field.mayBeNone ? [] : options.filter((one) => saysNothing(one, typing));
    return nothing.length === 0
      ? filled([])
      : { reply: near(nothing, [], []), fit: fits.someWords };
  }
  const areDangers = options.every(({ id }) => typing.dangers.some((sign) => sign.id === id));
  if (areDangers && !isWhole && !numberedOnly(line)) return readDangers(line, options, typing);
  const pieces = isWhole ? [line] : piecesOf(line, options, typing.and);
  if (pieces.length === 0) return unclear;
  // one thing may be said across what parts others: "clicks on and off all night"
  const found = isWhole ? [] : allSaid(line, options, typing).map(({ id }) => id);
  const inPieces = pieces.flatMap((piece) => allSaid(piece, options, typing).map(({ id }) => id));
  const isAcross = found.some((id) => !inPieces.includes(id));
  const lost: string[] = [];
  let fit: number = fits.exactly;
  for (const piece of pieces) {
    const byNumber = numbered(piece, options);
    if (byNumber) {
      found.push(byNumber.id);
      continue;
    }
    const best = match(piece, options, typing);
    const [one, ...others] = best.options;
    // "the water is weak and a baby drinks it": one piece may speak of another question
    const isElsewhere =
      !isOwn(piece, best.fit, typing) && questionFor(piece, field, typing.others, typing) !== null;
    const isGuess = best.fit === fits.someWords && found.length > 0;
    if (!one || isElsewhere || isGuess) {
      if (!isAcross) lost.push(piece);
      continue;
    }
    fit = Math.min(fit, best.fit);
    if (others.length > 0 || best.fit === fits.someWords) {
      return {
        reply: near(best.options, [...new Set(found)], lost),
        fit,
      };
    }
    found.push(one.id);
  }
  const ids = options.map(({ id }) => id).filter((id) => found.includes(id));
  if (ids.length === 0 && lost.length > 0) return mended(line, options, typing);
  // what was understood is kept, and what was not is asked for
  if (lost.length > 0) {
    const left = options.filter(({ id }) => !ids.includes(id));
    return { reply: near(left, ids, lost), fit: fits.says };
  }
  const isOpen = !areDangers && !numberedOnly(line) && ids.length > 0;
  return { reply: { kind: 'filled', value: ids, ...(isOpen && { isOpen }) }, fit };
}

/** Danger signs where they are asked for: what is said clearly is taken, all of it; what may be meant is asked back. */
function readDangers(line: string, options: readonly Option[], typing: Typing): Read {
  const asked = typing.dangers.filter(({ id }) => options.some((one) => one.id === id));
  const { signs, fit } = signsIn(line, asked, typing);
  if (signs.length === 0) {
    // one word of a sign ("wet") may be all that is said
    const part = asked.filter((one) => fitOf(plain(line), one, typing) === fits.partOfIt);
    return part.length === 0 ? unclear : { reply: near(part, [], []), fit: fits.partOfIt };
  }
  if (fit < fits.partOfIt) return { reply: near(signs, [], []), fit };
  return { reply: { kind: 'filled', value: signs.map(({ id }) => id) }, fit };
}

/** By its label alone: what else is said for it ("keeps nothing down") need not mean nothing. */
const saysNothing = ({ id, label }: Option, typing: Typing): boolean =>
  typing.none.some(
    (word) => match(word, [{ id, label, alsoSaid: [] }], typing).fit >= fits.partOfIt,
  );

/** A clear match is taken; one that rests on single words is asked back. */
function ofMatch({ fit, options }: Match): Read {
  const [one, ...others] = options;
  if (!one) return unclear;
  if (others.length === 0 && fit > fits.someWords) {
    return { reply: { kind: 'filled', value: one.id }, fit };
  }
  return { reply: { kind: 'near', options, found: [] }, fit };
}

function numbered(text: string, options: readonly Option[]): Option | undefined {
  return /^\d+$/.test(text.trim()) ? options[Number(text) - 1] : undefined;
}

const numberedOnly = (text: string): boolean => !/\p{L}/u.test(text);

const isOneOf = (text: string, list: readonly string[]) =>
  list.includes(text.trim().toLowerCase()) || list.map(plain).includes(plain(text) || '\0');
