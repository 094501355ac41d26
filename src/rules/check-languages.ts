import type { Finding } from '../../shared/ruleset/finding.ts';
import { readSource } from '../../shared/ruleset/source.ts';
import type { Files } from '../../shared/ruleset/tables.ts';

/** Fewer words than these may be the same in two languages: a name, a unit, a figure. */
const SENTENCE_WORDS = 3;

/** Sentences that stand in two languages the same, as when a file was copied and not translated. */
export function findingsOfLanguages(files: Files, languages: readonly string[]): Finding[] {
  const [first, ...others] = languages;
  return others.flatMap((language) =>
    Object.entries(files).flatMap(([file, text]) => {
      const sister = files[file.replace(`words/${language}/`, `words/${first}/`)];
      if (!file.startsWith(`words/${language}/`) || sister === undefined) return [];
      const source = readSource(file, text);
      const theirs = new Map(sentencesIn(readSource(file, sister).value).map(keyed));
      return sentencesIn(source.value)
        .filter((sentence) => theirs.get(keyed(sentence)[0]) === sentence.text)
        .map(
          ({ path }): Finding => ({
            file,
            line: source.lineOf(path),
            message: `${path.join(' › ')} stands in "${language}" as in "${first}"`,
            mend: `write it in "${language}"`,
            advice: true,
          }),
        );
    }),
  );
}

interface Sentence {
  readonly path: readonly PropertyKey[];
  readonly text: string;
}

const keyed = ({ path, text }: Sentence): [string, string] => [JSON.stringify(path), text];

function sentencesIn(value: unknown, path: readonly PropertyKey[] = []): Sentence[] {
  if (typeof value === 'string') {
    const words = value.replaceAll(/\{[^}]*\}/g, ' ').match(/\p{L}{2,}/gu) ?? [];
    return words.length < SENTENCE_WORDS ? [] : [{ path, text: value }];
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const step = Array.isArray(value) ? Number(key) : key;
    return sentencesIn(inner, [...path, step]);
  });
}
