import type { z } from 'zod';
import { cause } from './cause.ts';
import type { Finding } from './finding.ts';
import { suggestion } from './nearest.ts';
import { caution, danger, head, job, question, type RuleSet } from './schema.ts';
import { fit } from './shape.ts';
import { keysOf, readSource, type Source } from './source.ts';

/** A rule set's files by their path in its folder, with forward slashes: "causes/hydraulic.yaml" → text. */
export type Files = Readonly<Record<string, string>>;

export interface Place {
  readonly file: string;
  readonly line: number;
}

/** Tables that fit their schemas, and the place where anything in them stands. */
export interface Tables {
  readonly ruleSet: RuleSet;
  /** at(['causes', 'pump-worn', 'in']); at(['head', 'order', 3]) */
  readonly at: (path: readonly PropertyKey[]) => Place;
}

const entries = {
  causes: cause,
  questions: question,
  jobs: job,
  cautions: caution,
  dangers: danger,
};
type Kind = keyof typeof entries;
const kinds = Object.keys(entries) as Kind[];

/** What holds no tables of these kinds: words, work steps, upkeep and example cases are read apart. */
const apart = ['words', 'work', 'upkeep', 'examples'];

/** Reads and merges the tables. Without `tables`, `findings` say why. */
export function readTables(files: Files): {
  readonly tables?: Tables;
  readonly findings: Finding[];
} {
  const findings: Finding[] = [];
  const found: Record<Kind, Record<string, unknown>> = {
    causes: {},
    questions: {},
    jobs: {},
    cautions: {},
    dangers: {},
  };
  const homes = new Map<string, Source>();
  let headSource: Source | undefined;

  for (const file of Object.keys(files).sort()) {
    const top = (file.split('/')[0] ?? file).replace(/\.ya?ml$/, '');
    if (apart.includes(top)) continue;
    const source = readSource(file, files[file] ?? '');
    findings.push(...source.findings);
    if (file === 'ruleset.yaml') headSource = source;
    else if (isKind(top)) gather(top, source);
    else {
      const mend = suggestion(
        top,
        ['ruleset', ...kinds, ...apart],
        'see docs/rules.md for the files there are',
      );
      findings.push({ file, line: 1, message: `no table is called "${top}"`, mend });
    }
  }

  function gather(kind: Kind, source: Source): void {
    for (const id of keysOf(source.value)) {
      const home = homes.get(`${kind} ${id}`);
      if (home) {
        findings.push({
          file: source.file,
          line: source.lineOf([id]),
          message: `${kind} › ${id} stands twice; the other is in ${home.file}:${home.lineOf([id])}`,
          mend: 'keep one of the two',
        });
        continue;
      }
      homes.set(`${kind} ${id}`, source);
      if (!/^[a-z0-9-]+$/.test(id)) {
        findings.push({
          file: source.file,
          line: source.lineOf([id]),
          message: `"${id}" is no id`,
          mend: 'use small letters, digits and hyphens',
        });
        continue;
      }
      const checked = fit(entries[kind] as z.ZodType<unknown>, source, [id]);
      findings.push(...checked.findings);
      found[kind][id] = checked.value;
    }
  }

  if (!headSource) {
    const mend = 'copy it from the version before';
    findings.push({ file: 'ruleset.yaml', line: 1, message: 'the file is missing', mend });
    return { findings };
  }
  const checkedHead = fit(head, headSource, []);
  if (headSource.findings.length === 0) findings.push(...checkedHead.findings);
  if (findings.length > 0 || !checkedHead.value) return { findings };

  const headFile = headSource;
  const at = (path: readonly PropertyKey[]): Place => {
    const [kind, ...rest] = path;
    const source = kind === 'head' ? headFile : homes.get(`${String(kind)} ${String(rest[0])}`);
    return source
      ? { file: source.file, line: source.lineOf(rest) }
      : { file: headFile.file, line: 1 };
  };
  const ruleSet = { head: checkedHead.value, ...found } as RuleSet;
  return { tables: { ruleSet, at }, findings };
}

const isKind = (name: string): name is Kind => (kinds as string[]).includes(name);
