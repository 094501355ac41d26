import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { compressed } from './build/compressed.ts';
import { readingOnlyZod } from './build/reading-only-zod.ts';
import { ruleFiles } from './build/rule-files.ts';
import { shellList } from './build/shell-list.ts';
import { smaller } from './build/smaller.ts';

const path = (relative: string): string => fileURLToPath(new URL(relative, import.meta.url));

/** Builds the browser client into dist/web. Rule tables, words and job sheets become JSON on the way. */
export default defineConfig({
  root: path('.'),
  base: '/',
  publicDir: path('./public'),
  oxc: { jsx: { runtime: 'automatic', importSource: 'hono/jsx/dom' } },
  plugins: [ruleFiles(), smaller(), shellList(), compressed()],
  worker: { format: 'es', plugins: () => [readingOnlyZod(), smaller()] },
  build: {
    outDir: path('../dist/web'),
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    rolldownOptions: {
      input: { main: path('./index.html'), sw: path('./offline/sw.ts') },
      output: {
        // small files shared by several screens travel as one
        codeSplitting: {
          groups: [
            { name: 'common', test: /\/common\/|\/(choices|figures|units)\.ts/, minShareCount: 2 },
          ],
        },
        entryFileNames: (chunk) => (chunk.name === 'sw' ? 'sw.js' : 'assets/[name]-[hash].js'),
      },
    },
  },
});
