import { type Finding, placeOf } from '../../shared/ruleset/finding.ts';
import { findingsOf } from '../../shared/ruleset/load.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { readTables } from '../../shared/ruleset/tables.ts';
import { readUpkeepRules } from '../../shared/upkeep/rules.ts';
import { readFiles } from './read.ts';

/** What `rules check` has to say: the findings, and a text that is read in a minute. */
export interface RuleCheck {
  readonly findings: readonly Finding[];
  readonly text: string;
}

/** Checks the rule set in a folder. Throws an InputError only when the folder cannot be read. */
export function checkRules(folder: string): RuleCheck {
  const files = readFiles(folder);
  const { tables } = readTables(files);
  const findings = [
    ...findingsOf(files),
    ...(tables ? readUpkeepRules(files, tables.ruleSet).findings : []),
  ];
  const text = [
    ...(tables
      ? contents(tables.ruleSet)
      : [`Rule set in ${folder}: its tables cannot be read yet.`]),
    '',
    ...findings.map((one) => `${placeOf(one)}  ${one.message}\n    mend: ${one.mend}`),
    verdict(findings),
  ].join('\n');
  return { findings, text };
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

function verdict(findings: readonly Finding[]): string {
  if (findings.length === 0) return 'Nothing to mend.';
  const files = new Set(findings.map((one) => one.file)).size;
  return `${findings.length} to mend in ${files} ${files === 1 ? 'file' : 'files'}.`;
}
