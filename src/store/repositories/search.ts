import { type RawBuilder, sql } from 'kysely';

/** Text search on columns kept in small letters; no sign is a wildcard. */

const literal = (text: string): string =>
  text.toLowerCase().replace(/[\\%_]/g, (sign) => `\\${sign}`);

export const contains = (column: string, text: string): RawBuilder<boolean> =>
  sql`${sql.ref(column)} like ${`%${literal(text)}%`} escape '\\'`;

export const startsWith = (column: string, text: string): RawBuilder<boolean> =>
  sql`${sql.ref(column)} like ${`${literal(text)}%`} escape '\\'`;
