import { basename, resolve } from 'node:path';
import { type Finding, inReadingOrder, placeOf } from '../../shared/ruleset/finding.ts';
import { findingsOf } from '../../shared/ruleset/load.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { type Files, readTables, type Tables } from '../../shared/ruleset/tables.ts';
import { findingsOfEvidence } from './check-evidence.ts';
import { findingsOfHydraulics } from './check-hydraulics.ts';
import { findingsOfJobs, findingsOfProof } from './check-jobs.ts';
import { findingsOfLanguages } from './check-languages.ts';
import { findingsOfSynonyms } from './check-synonyms.ts';
import { readFiles, readRuleSet } from './read.ts';
import { findingsOfExamples } from './run-examples.ts';
import { findingsOfSeal, isPublished } from './seal.ts';

/** What `rules check` has to say: the findings, and a text that is read in a minute. */
export interface RuleCheck {
  readonly findings: readonly Finding[];
  /** without what is only advice: nothing here is fit for use */
  readonly toMend: readonly Finding[];
  readonly text: string;
}

export interface CheckWanted {
  /** leaves out the search for unsafe ways through the jobs, which takes half a minute */
  readonly quick: boolean;
}

/** Checks the rule set in a folder. Throws an InputError only when the folder cannot be read. */
export function checkRules(folder: string, { quick }: CheckWanted): RuleCheck {
  const files = readFiles(folder);
  const { tables } = readTables(files);
  const lines: string[] = tables
    ? contents(tables.ruleSet)
    : [`Rule set in ${folder}: its tables cannot be read yet.`];
  const findings: Finding[] = [...findingsOfSeal(folder), ...findingsOf(files)];
  if (tables) findings.push(...findingsOfDates(folder, tables));
  if (tables) findings.push(...findingsOfJobs(files, tables));
  if (tables) findings.push(...findingsOfLanguages(files, tables.ruleSet.head.languages));
  if (tables) findings.push(...findingsOfSynonyms(files));
  // what follows reckons with the tables, so they must hold first
  if (tables && findings.every(({ advice }) => advice))
    lines.push(...whatItDoes(folder, files, tables));
  else lines.push('  not tried out: mend the tables first');

  function whatItDoes(at: string, all: Files, read: Tables): string[] {
    findings.push(...findingsOfEvidence(read), ...findingsOfHydraulics(read));
    const examples = findingsOfExamples(readRuleSet(at));
    findings.push(...examples.findings);
    const proof = quick ? null : findingsOfProof(all);
    findings.push(...(proof?.findings ?? []));
    return [
      `  ${examples.run} example cases run`,
      proof
        ? `  ${proof.states} states of the jobs searched for a way to get hurt`
        : '  safety of the jobs not searched (--quick)',
    ];
  }

  lines.push(isPublished(folder) ? '  published: sealed' : '  a draft: not published yet');
  const ordered = inReadingOrder(findings);
  const toMend = ordered.filter(({ advice }) => !advice);
  const advice = ordered.filter((one) => one.advice);
  const text = [
    ...lines,
    '',
    ...toMend.map(told),
    ...(advice.length > 0 ? ['Worth a look, yet it may be meant so:', ...advice.map(told)] : []),
    verdict(toMend),
  ].join('\n');
  return { findings: ordered, toMend, text };
}

const told = (one: Finding) => `${placeOf(one)}  ${one.message}\n    mend: ${one.mend}`;

/** A version is named by a day of the calendar, and so is its folder. */
function findingsOfDates(folder: string, tables: Tables): Finding[] {
  const { version } = tables.ruleSet.head;
  const place = tables.at(['head', 'version']);
  const day = new Date(`${version}T00:00:00Z`);
  const isDay = !Number.isNaN(day.getTime()) && day.toISOString().startsWith(version);
  const name = basename(resolve(folder));
  const findings: Finding[] = [];
  if (!isDay) {
    const mend = 'write a day of the calendar';
    findings.push({ ...place, message: `there is no day ${version}`, mend });
  }
  if (/^\d{4}-\d{2}-\d{2}$/.test(name) && name !== version) {
    const message = `the version is ${version}, but the folder is called ${name}`;
    findings.push({ ...place, message, mend: 'give both the same day' });
  }
  return findings;
}

function contents({ head, causes, questions, jobs, cautions, dangers }: RuleSet): string[] {
  const inBlock = (block: string) =>
    Object.values(causes).filter((cause) => cause.block === block).length;
  const byTable = Object.values(questions).filter(
    (question) => Object.keys(question.table).length > 0,
  );
  const words = byTable
    .flatMap((question) => Object.values(question.table))
    .reduce((n, row) => n + Object.keys(row).length, 0);
  const householder = Object.values(jobs).filter((job) => job.by === 'householder').length;
  const count = (table: object) => Object.keys(table).length;
  return [
    `Rule set ${head.version}, in ${head.languages.join(', ')}`,
    `  ${count(causes)} causes: ${inBlock('hydraulic')} hydraulic, ${inBlock('quality')} of the water`,
    `  ${count(questions)} questions: ${byTable.length} by table with ${words} frequency words, the rest measured or asked`,
    `  ${count(jobs)} jobs: ${householder} for the householder`,
    `  ${count(cautions)} cautions, ${count(dangers)} danger signs`,
  ];
}

function verdict(toMend: readonly Finding[]): string {
  if (toMend.length === 0) return 'Nothing to mend.';
  const files = new Set(toMend.map((one) => one.file)).size;
  return `${toMend.length} to mend in ${files} ${files === 1 ? 'file' : 'files'}.`;
}
