import type { Cause } from './cause.ts';
import type { Check } from './check.ts';
import { finding, kindsOfWork, unknownAnswers, unknownIds } from './references.ts';
import type { RuleSet } from './schema.ts';

/** Work that moves a cause's odds is an answer of a question about work done, one that is no evidence itself. */
const workIsKnown: Check = (tables) => {
  const works = kindsOfWork(tables.ruleSet);
  return Object.entries(tables.ruleSet.causes).flatMap(([id, cause]) =>
    unknownIds(
      tables,
      Object.keys(cause.afterWork).map((work) => ({
        id: work,
        path: ['causes', id, 'afterWork', work],
      })),
      works,
      'kind of work',
    ),
  );
};

/** What makes an overdue part the one that is sought is an answer that is there. */
const soughtIsAnswered: Check = (tables) =>
  Object.entries(tables.ruleSet.causes).flatMap(([id, { soughtWhen = [] }]) =>
    soughtWhen.flatMap((answer, i) =>
      unknownAnswers(tables, answer, ['causes', id, 'soughtWhen', i]),
    ),
  );

/** Every cause shows itself somehow: an answer, a change to the line, or its age. */
const hasSign: Check = (tables) =>
  Object.entries(tables.ruleSet.causes)
    .filter(([id, cause]) => !showsItself(id, cause, tables.ruleSet))
    .map(([id]) =>
      finding(
        tables,
        ['causes', id],
        `nothing shows ${id}: no answer, no change to the line, no age`,
        "give it a row in a question's table, or a change",
      ),
    );

function showsItself(id: string, cause: Cause, ruleSet: RuleSet): boolean {
  const inTable = Object.values(ruleSet.questions).some((question) => id in question.table);
  return inTable || cause.changes.length > 0 || cause.lifeMonths !== undefined;
}

/** Every cause has a job that ends it. */
const hasJob: Check = (tables) =>
  Object.keys(tables.ruleSet.causes)
    .filter((id) => !Object.values(tables.ruleSet.jobs).some((job) => id in job.cures))
    .map((id) =>
      finding(
        tables,
        ['causes', id],
        `no job cures ${id}`,
        'add it under "cures" of a job in jobs.yaml',
      ),
    );

/** A cause of the hydraulic block moves the line; without that, no reading could speak for or against it. */
const hydraulicCausesMoveTheLine: Check = (tables) =>
  Object.entries(tables.ruleSet.causes)
    .filter(([, cause]) => cause.block === 'hydraulic' && cause.changes.length === 0)
    .map(([id]) =>
      finding(
        tables,
        ['causes', id],
        `${id} is hydraulic but changes nothing on the line`,
        'add "changes", or move it to the quality block',
      ),
    );

export const causeChecks: readonly Check[] = [
  workIsKnown,
  soughtIsAnswered,
  hasSign,
  hasJob,
  hydraulicCausesMoveTheLine,
];
