import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import type { Actor } from '../diagnosis/result.ts';
import { type Finding, inReadingOrder, placeOf } from '../ruleset/finding.ts';
import { actors } from '../ruleset/schema.ts';
import { fit } from '../ruleset/shape.ts';
import { keysOf, readSource, type Source } from '../ruleset/source.ts';
import type { Files } from '../ruleset/tables.ts';
import { type WorkRules, type WorkSection, workSections } from './schema.ts';

/** Where an entry stands: `placed('jobs', 'change-lamp', ['steps', 3])` → file and line. */
export type PlaceOfWork = (
  section: WorkSection,
  id: string,
  path?: readonly PropertyKey[],
) => { readonly file: string; readonly line: number };

export interface ReadWork {
  readonly work: WorkRules;
  readonly placed: PlaceOfWork;
  readonly findings: readonly Finding[];
}

/**
 * Reads and merges `work/*.yaml` (path in the rule set's folder → text). Who does a job stands in the table of jobs, and
 * only there. With findings, `work` lacks what was wrong.
 */
export function readWork(files: Files): ReadWork {
  const findings: Finding[] = [];
  const homes = new Map<string, Source>();
  const actorOf = actorsIn(files);
  const work: Record<WorkSection, Record<string, unknown>> = {
    conditions: {},
    blocks: {},
    branches: {},
    jobs: {},
    sources: {},
  };
  for (const file of Object.keys(files).sort()) {
    if (!/^work\/.*\.ya?ml$/.test(file)) continue;
    const source = readSource(file, files[file] ?? '');
    findings.push(...source.findings);
    for (const [section, entries] of Object.entries((source.value ?? {}) as object)) {
      if (!isSection(section)) {
        const mend = `use one of ${Object.keys(workSections).join(', ')}`;
        findings.push({
          file,
          line: source.lineOf([section]),
          message: `work has no section "${section}"`,
          mend,
        });
        continue;
      }
      for (const id of keysOf(entries)) {
        if (homes.has(`${section} ${id}`)) {
          findings.push({
            file,
            line: source.lineOf([section, id]),
            message: `${section} › ${id} stands twice`,
            mend: 'keep one of the two',
          });
          continue;
        }
        homes.set(`${section} ${id}`, source);
        const checked = fit(workSections[section] as z.ZodType<unknown>, source, [section, id]);
        findings.push(...checked.findings);
        if (checked.value === undefined) continue;
        if (section !== 'jobs') work[section][id] = checked.value;
        else if (actorOf.has(id)) work.jobs[id] = { ...checked.value, by: actorOf.get(id) };
        else {
          findings.push({
            file: source.file,
            line: source.lineOf([section, id]),
            message: `sheet ${id} is no job, so no plan can name it`,
            mend: `say in jobs.yaml who does ${id}, how long it takes and what it cures`,
          });
        }
      }
    }
  }
  const placed: PlaceOfWork = (section, id, path = []) => {
    const source = homes.get(`${section} ${id}`);
    return source
      ? { file: source.file, line: source.lineOf([section, id, ...path]) }
      : { file: 'work', line: 1 };
  };
  return { work: work as unknown as WorkRules, placed, findings: inReadingOrder(findings) };
}

/**
 * The job sheets of a rule set.
 * @throws InputError naming file and line of the first thing wrong
 */
export function loadWork(files: Files): WorkRules {
  const { work, findings } = readWork(files);
  const first = findings[0];
  if (first) throw new InputError(placeOf(first), `${first.message}; ${first.mend}`);
  return work;
}

/** By whom each job of the tables is done; what is wrong in the tables themselves is told by their own checks. */
function actorsIn(files: Files): Map<string, Actor> {
  const rows = Object.entries(files)
    .filter(([file]) => /^jobs(\/.*)?\.ya?ml$/.test(file))
    .flatMap(([file, text]) => Object.entries((readSource(file, text).value ?? {}) as object));
  return new Map(
    rows.flatMap(([id, row]) => {
      const by = z.enum(actors).safeParse((row as { readonly by?: unknown } | null)?.by);
      return by.success ? [[id, by.data] as const] : [];
    }),
  );
}

const isSection = (name: string): name is WorkSection => Object.hasOwn(workSections, name);
