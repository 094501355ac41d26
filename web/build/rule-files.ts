import type { Plugin } from 'vite';
import { latestRuleSet } from '../../src/rules/read.ts';
import { type JsonFile, jsonFilesOf } from './json-files.ts';

/**
 * Makes the newest rule set into JSON files below `rules/`, so that no browser parses YAML or Markdown. A rule set or
 * word that cannot be used stops the build with its file and line.
 */
export function ruleFiles(): Plugin {
  const read = (): readonly JsonFile[] => jsonFilesOf(latestRuleSet());
  let files: readonly JsonFile[] = [];
  return {
    name: 'rule-files',
    // read before anything is written, so that a broken rule set leaves the last build as it was
    buildStart() {
      if (this.environment.mode === 'build') files = read();
    },
    generateBundle() {
      for (const { path, text } of files) {
        this.emitFile({ type: 'asset', fileName: path, source: text });
      }
    },
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const file = read().find(({ path }) => `/${path}` === request.url);
        if (!file) return next();
        response.setHeader('content-type', 'application/json').end(file.text);
      });
    },
  };
}
