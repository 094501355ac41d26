import { type RawBuilder, sql } from 'kysely';

/** Text search on columns kept in small letters; no sign is a wildcard. */

const literal = (text: string): string =>
  text.toLowerCase().replace(/[\\%_]/g, (sign) => `\\${sign}`);

export const contains = (column: string, text: string): RawBuilder<boolean> =>
  sql`${sql.ref(column)} like ${`%${literal(text)}%`} escape '\\'`;

export const startsWith = (column: string, text: string): RawBuilder<boolean> =>
  sql`${sql.ref(column)} like ${`${literal(text)}%`} escape '\\'`;

/** Too short to be looked for in the middle of words: "3" would be found in every number. */
const SHORT = 2;

/** A word somewhere in the text; a short one only where a word begins. */
export const containsWord = (column: string, word: string): RawBuilder<boolean> =>
  word.length > SHORT
    ? contains(column, word)
    : sql`' ' || ${sql.ref(column)} like ${`% ${literal(word)}%`} escape '\\'`;

/** As `contains`, where neither side's spaces and hyphens count: a telephone number is written in many ways. */
export const containsRunOn = (column: string, text: string): RawBuilder<boolean> =>
  sql`replace(replace(${sql.ref(column)}, ' ', ''), '-', '') like ${`%${literal(text.replace(/[\s-]/g, ''))}%`} escape '\\'`;

/** The words of a search; each is looked for by itself, so their order does not matter. */
export const wordsOf = (search: string): string[] =>
  search.split(/[\s,;]+/).filter((word) => word !== '');

/** A number with four digits or more, however it is parted. */
export const isNumber = (search: string): boolean => /^\+?(?:[\s-]*\d){4,}[\s-]*$/.test(search);
