/**
 * What a table holds under a name somebody gave; undefined when it holds nothing there. A plain look into the table would
 * also find what every object inherits: `constructor` is no question, job or language.
 */
export const named = <T>(table: Readonly<Record<string, T>>, name: string): T | undefined =>
  Object.hasOwn(table, name) ? table[name] : undefined;
