import type { Finding } from './finding.ts';
import { suggestion } from './nearest.ts';
import type { RuleSet } from './schema.ts';
import { fit } from './shape.ts';
import { keysOf, readSource, type Source } from './source.ts';
import type { Files } from './tables.ts';
import { type Words, wordsSchema } from './words.ts';

const sections = Object.keys(wordsSchema.shape) as (keyof Words)[];
type Section = keyof Words;

/** Reads and merges `words/<language>/*.yaml` (each file holds sections by name) and compares them with the tables. */
export function readWords(
  files: Files,
  language: string,
  ruleSet: RuleSet,
): { readonly words?: Words; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  const folder = `words/${language}/`;
  const homes = new Map<string, Source>();
  const words: Record<Section, Record<string, unknown>> = {
    causes: {},
    questions: {},
    jobs: {},
    cautions: {},
    dangers: {},
    warnings: {},
    van: {},
    synonyms: {},
    phrases: {},
  };
  const here = Object.keys(files).filter(
    (file) => file.startsWith(folder) && !file.slice(folder.length).includes('/'),
  );
  for (const file of here.sort()) {
    const source = readSource(file, files[file] ?? '');
    findings.push(...source.findings);
    for (const section of keysOf(source.value)) {
      if (!isSection(section)) {
        findings.push({
          file,
          line: source.lineOf([section]),
          message: `words have no section "${section}"`,
          mend: suggestion(section, sections, `use one of ${sections.join(', ')}`),
        });
        continue;
      }
      const entry = wordsSchema.shape[section].valueType;
      for (const id of keysOf((source.value as Record<string, unknown>)[section])) {
        const home = homes.get(`${section} ${id}`);
        if (home) {
          findings.push({
            file,
            line: source.lineOf([section, id]),
            message: `words for ${section} › ${id} stand twice; the others are in ${home.file}:${home.lineOf([section, id])}`,
            mend: 'keep one of the two',
          });
          continue;
        }
        homes.set(`${section} ${id}`, source);
        const checked = fit<unknown>(entry, source, [section, id]);
        findings.push(...checked.findings);
        words[section][id] = checked.value;
      }
    }
  }
  if (findings.length > 0) return { findings };
  const merged = words as unknown as Words;
  const at: At = (section, id, ...rest) => {
    const source = homes.get(`${section} ${id}`);
    return source
      ? { file: source.file, line: source.lineOf([section, id, ...rest]) }
      : { file: `${folder}${section}.yaml`, line: 1 };
  };
  return { words: merged, findings: compare(merged, ruleSet, at) };
}

/** Where the words for an id stand. */
type At = (
  section: Section,
  id: string,
  ...rest: readonly PropertyKey[]
) => { readonly file: string; readonly line: number };

/** Words that are missing for an id of the tables, and words for ids that are not there. */
function compare(words: Words, ruleSet: RuleSet, at: At): Finding[] {
  const findings: Finding[] = [];
  const needed: readonly (readonly [Section, readonly string[]])[] = [
    ['causes', [...Object.keys(ruleSet.causes), 'nothing-wrong', 'not-listed']],
    ['questions', Object.keys(ruleSet.questions)],
    ['jobs', Object.keys(ruleSet.jobs)],
    ['cautions', Object.keys(ruleSet.cautions)],
    ['dangers', Object.keys(ruleSet.dangers)],
    ['van', [...new Set(Object.values(ruleSet.jobs).flatMap((job) => job.van))]],
  ];
  for (const [section, ids] of needed) {
    findings.push(
      ...difference(section, Object.keys(words[section]), ids, (id) => at(section, id)),
    );
  }
  for (const [id, question] of Object.entries(ruleSet.questions)) {
    const spoken = words.questions[id];
    if (!spoken) continue;
    if (question.againIfUnknown && spoken.again === undefined) {
      findings.push({
        ...at('questions', id),
        message: `questions › ${id} is asked once more but has no other words`,
        mend: 'write them under "again"',
      });
    }
    if (question.atPlant && spoken.afar !== undefined) {
      findings.push({
        ...at('questions', id, 'afar'),
        message: `questions › ${id} is left out while the caller is elsewhere, so its words for then are never said`,
        mend: 'take out "afar", or "atPlant" in the tables',
      });
    }
    findings.push(
      ...difference(
        `questions › ${id} › answers`,
        Object.keys(spoken.answers),
        question.answers,
        (answer) => at('questions', id, 'answers', answer),
      ),
    );
  }
  return [...findings, ...unknownSynonyms(words, at)];
}

/** Lists of words that a way of saying an answer names, "{smells}", and that are not there. */
function unknownSynonyms({ questions, synonyms }: Words, at: At): Finding[] {
  const lists = Object.keys(synonyms);
  return Object.entries(questions).flatMap(([question, { answers }]) =>
    Object.entries(answers).flatMap(([answer, { alsoSaid }]) =>
      alsoSaid.flatMap((said, i) =>
        [...said.matchAll(/\{([^}]*)\}/g)]
          .map(([, name = '']) => name)
          .filter((name) => !lists.includes(name))
          .map((name) => ({
            ...at('questions', question, 'answers', answer, 'alsoSaid', i),
            message: `${question} › ${answer}: "${said}" names the words {${name}}, which are not under synonyms`,
            mend: suggestion(name, lists, 'write them under "synonyms"'),
          })),
      ),
    ),
  );
}

function difference(
  name: string,
  spoken: readonly string[],
  needed: readonly string[],
  at: (id: string) => { file: string; line: number },
): Finding[] {
  const missing = needed
    .filter((id) => !spoken.includes(id))
    .map((id) => ({
      ...at(id),
      message: `${name}: no words for "${id}"`,
      mend: 'write them beside the others',
    }));
  const unknown = spoken
    .filter((id) => !needed.includes(id))
    .map((id) => ({
      ...at(id),
      message: `${name}: words for "${id}", which is not in the tables`,
      mend: suggestion(id, needed, 'take them out'),
    }));
  return [...missing, ...unknown];
}

const isSection = (name: string): name is Section => (sections as string[]).includes(name);
