import { z } from 'zod';
import { InputError } from '../../shared/common/errors.ts';
import { fit } from '../../shared/ruleset/shape.ts';
import { readSource } from '../../shared/ruleset/source.ts';
import type { Files } from '../../shared/ruleset/tables.ts';

/**
 * The words of the screens: `words/<language>/ui/*.yaml`, one file per part of the client. A file holds keys and texts;
 * `{name}` is filled in by the code.
 */
const uiWordsFile = z.record(
  z.string().regex(/^[a-z0-9-]+$/, 'use small letters, digits and hyphens'),
  z.string().min(1),
);

/**
 * All words of the screens in one language by key.
 * @throws InputError naming file and line of the first thing wrong, a key that stands twice included
 */
export function readUiWords(files: Files, language: string): Readonly<Record<string, string>> {
  const folder = `words/${language}/ui/`;
  const words: Record<string, string> = {};
  for (const file of Object.keys(files)
    .filter((path) => path.startsWith(folder))
    .sort()) {
    const source = readSource(file, files[file] ?? '');
    const { value, findings } = fit(uiWordsFile, source, []);
    const first = source.findings[0] ?? findings[0];
    if (first) throw new InputError(`${file}:${first.line}`, `${first.message}; ${first.mend}`);
    for (const [key, text] of Object.entries(value ?? {})) {
      if (key in words) {
        throw new InputError(`${file}:${source.lineOf([key])}`, `"${key}" stands twice; keep one`);
      }
      words[key] = text;
    }
  }
  return words;
}
