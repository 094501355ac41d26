import type { Plugin } from 'vite';

/**
 * zod carries a writer of JSON Schema with every schema, and its own sentences about what is wrong. The client only reads
 * with its schemas and says what is wrong in words of its own (shared/plant/messages.ts): both are left out, 6 kB
 * compressed.
 */
export function readingOnlyZod(): Plugin {
  return {
    name: 'reading-only-zod',
    enforce: 'pre',
    transform(code, id) {
      if (/zod\/v4\/locales\/en\.js$/.test(id)) return { code: withoutSentences, map: null };
      if (!/zod\/v4\/core\/(to-json-schema|json-schema-processors)\.js$/.test(id)) return null;
      const names = [...code.matchAll(/^export (?:const|function|class) (\w+)/gm)].map(
        ([, name]) => name,
      );
      if (names.length === 0)
        this.error(`${id} exports nothing by name any more; see reading-only-zod.ts`);
      return {
        code: names.map((name) => `export const ${name} = () => {};`).join('\n'),
        map: null,
      };
    },
  };
}

/** Without them zod says "Invalid input", which is put in plain words like every message of its own. */
const withoutSentences = 'export default () => ({});';
