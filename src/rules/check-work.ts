import { type Finding, inReadingOrder } from '../../shared/ruleset/finding.ts';
import type { Files } from '../../shared/ruleset/tables.ts';
import { findingsOfWork } from '../../shared/work/check.ts';
import { proveJobs } from '../../shared/work/prove.ts';
import { readWork } from '../../shared/work/read.ts';

/** What is to be said of the job sheets: the findings, and how much was looked at. */
export interface WorkCheck {
  readonly findings: readonly Finding[];
  readonly text: string;
}

/**
 * Checks the job sheets of a rule set: first what can be seen in them, then, when that is in order, every reachable
 * state of every job for every kind of plant. The search takes about half a minute.
 */
export function checkWork(files: Files, languages: readonly string[]): WorkCheck {
  const seen = findingsOfWork(files, languages);
  if (seen.length > 0) {
    return { findings: inReadingOrder(seen), text: '  job sheets: not played through yet' };
  }
  const { work, placed } = readWork(files);
  const { findings, sheets, states } = proveJobs(work, placed);
  const count = Object.keys(work.jobs).length;
  return {
    findings: inReadingOrder(findings),
    text: `  ${count} job sheets: ${sheets} different ones over all kinds of plant, ${states} states played through`,
  };
}
