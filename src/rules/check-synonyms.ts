import { plain } from '../../shared/interview/match.ts';
import type { Finding } from '../../shared/ruleset/finding.ts';
import { readSource } from '../../shared/ruleset/source.ts';
import type { Files } from '../../shared/ruleset/tables.ts';

interface Said {
  readonly label?: string;
  readonly alsoSaid?: readonly string[];
}
interface Questions {
  readonly questions?: Readonly<
    Record<string, { readonly answers?: Readonly<Record<string, Said>> }>
  >;
}

/** Words that two answers of one question share: whoever types them is asked back every time. */
export function findingsOfSynonyms(files: Files): Finding[] {
  return Object.entries(files).flatMap(([file, text]) => {
    // only a few of the files hold questions, and reading one takes its time
    if (!file.startsWith('words/') || !/^questions:/m.test(text)) return [];
    const source = readSource(file, text);
    const { questions = {} } = (source.value ?? {}) as Questions;
    return Object.entries(questions).flatMap(([question, { answers = {} }]) => {
      const owners = new Map<string, string>();
      for (const [id, { label = id }] of Object.entries(answers)) {
        owners.set(plain(id), id);
        owners.set(plain(label), id);
      }
      return Object.entries(answers).flatMap(([id, { alsoSaid = [] }]) =>
        alsoSaid.flatMap((said, i): Finding[] => {
          const owner = owners.get(plain(said)) ?? id;
          owners.set(plain(said), owner);
          if (owner === id) return [];
          return [
            {
              file,
              line: source.lineOf(['questions', question, 'answers', id, 'alsoSaid', i]),
              message: `${question}: "${said}" is said for ${id} and for ${owner}`,
              mend: 'leave it with one of them',
              advice: true,
            },
          ];
        }),
      );
    });
  });
}
