import { InputError } from '../../shared/common/errors.ts';
import type { Finding } from '../../shared/ruleset/finding.ts';
import { finding } from '../../shared/ruleset/references.ts';
import type { Files, Tables } from '../../shared/ruleset/tables.ts';
import { loadUpkeepRules } from '../../shared/upkeep/rules.ts';
import { findingsOfWork } from '../../shared/work/check.ts';
import { proveJobs } from '../../shared/work/prove.ts';
import { readWork } from '../../shared/work/read.ts';

/** Job sheets as they are written: steps, their words, a sheet for every job, parts for whoever comes. */
export function findingsOfJobs(files: Files, tables: Tables): Finding[] {
  const { ruleSet } = tables;
  const { work, findings } = readWork(files);
  if (findings.length > 0) return [...findings];
  const sheetless = Object.keys(ruleSet.jobs)
    .filter((id) => !work.jobs[id])
    .map((id) =>
      finding(
        tables,
        ['jobs', id],
        `job ${id} has no steps`,
        `write its sheet in work/ under jobs`,
      ),
    );
  const empty = Object.entries(ruleSet.jobs)
    .filter(([, { renews, van }]) => renews && van.length === 0)
    .map(([id]) =>
      finding(
        tables,
        ['jobs', id],
        `job ${id} puts in a new part, but nothing is loaded for it`,
        'name the part under "van"',
      ),
    );
  return [
    ...refusals('words', () => findingsOfWork(files, ruleSet.head.languages, ruleSet.questions)),
    ...sheetless,
    ...empty,
    ...refusals('upkeep.yaml', () => {
      loadUpkeepRules(files, ruleSet);
      return [];
    }),
  ];
}

/** The search over every job and kind of plant for a way to get hurt; takes about half a minute. */
export function findingsOfProof(files: Files): { findings: readonly Finding[]; states: number } {
  const { work, placed, findings } = readWork(files);
  return findings.length > 0 ? { findings: [], states: 0 } : proveJobs(work, placed);
}

/** What a loader refuses, as a finding at the place it names. */
function refusals(otherwise: string, load: () => Finding[]): Finding[] {
  try {
    return load();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const [, file = otherwise, line = '1'] = /^(.*):(\d+)$/.exec(error.where) ?? [];
    const [message = '', ...mend] = error.message.split('; ');
    return [{ file, line: Number(line), message, mend: mend.join('; ') || 'see docs/rules.md' }];
  }
}
