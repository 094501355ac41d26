import type { Words } from '../ruleset/words.ts';
import type { Field } from './form.ts';
import { fits, match, meantWords, type Option, type PlainWords } from './match.ts';

/** A question of the interview and what may be said to it, to know what is said to the wrong one. */
export interface OtherQuestion {
  readonly short: string;
  readonly options: readonly Option[];
}

/** Questions with answers in words; an answer that only names a question of its own ("it smells") belongs to none. */
export function othersOf({ questions }: Words): OtherQuestion[] {
  return Object.values(questions).map(({ short, answers }) => ({
    short,
    options: Object.entries(answers).flatMap(([id, said]) =>
      questions[id] ? [] : [{ id, ...said }],
    ),
  }));
}

/** With more words than these a line tells more than the one thing that another question asks for. */
const MOST_WORDS = 3;

/** The other question that a line answers clearly; null where it is none, or one of several. */
export function questionFor(
  line: string,
  field: Field,
  others: readonly OtherQuestion[],
  words: PlainWords,
): string | null {
  if (field.kind === 'note' || meantWords(line, words).length > MOST_WORDS) return null;
  const own = 'options' in field ? field.options.map(({ id }) => id) : [];
  const isOwn = ({ options }: OtherQuestion) =>
    own.length > 0 && own.every((id) => options.some((option) => option.id === id));
  const best = others
    .filter((other) => !isOwn(other))
    .map((other) => ({ short: other.short, fit: match(line, other.options, words).fit }))
    .filter(({ fit }) => fit >= fits.says);
  const [one, ...more] = best.filter(({ fit }) => fit === Math.max(...best.map((b) => b.fit)));
  return one && more.length === 0 ? one.short : null;
}
