import { expect, it } from 'vitest';
import { findingsOfLanguages } from '../../src/rules/check-languages.ts';
import { readFiles } from '../../src/rules/read.ts';

const both = (en: string, es: string) =>
  findingsOfLanguages({ 'words/en/ui/talk.yaml': en, 'words/es/ui/talk.yaml': es }, ['en', 'es']);

it('finds a sentence that was copied and not translated, at its line', () => {
  const en = 'yes: "Yes"\nstart:\n  - Start here now\n  - Go on\n';
  const es = 'yes: "Sí"\nstart:\n  - Start here now\n  - Siga\n';
  expect(both(en, es)).toEqual([
    {
      file: 'words/es/ui/talk.yaml',
      line: 3,
      message: 'start › 0 stands in "es" as in "en"',
      mend: 'write it in "es"',
      advice: true,
    },
  ]);
});

it('lets names, units and holes be the same in both', () => {
  expect(
    both(
      'unit: L/min\nline: "{from} a {to} {what}"\n',
      'unit: L/min\nline: "{from} a {to} {what}"\n',
    ),
  ).toEqual([]);
});

it('finds none in the rule set that comes with it', () => {
  expect(findingsOfLanguages(readFiles('rules/2026-12-01'), ['en', 'es'])).toEqual([]);
});
