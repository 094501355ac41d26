import { actionChecks } from './check-actions.ts';
import { causeChecks } from './check-causes.ts';
import { headChecks } from './check-head.ts';
import { questionChecks } from './check-questions.ts';
import type { Finding } from './finding.ts';
import type { Tables } from './tables.ts';

/** One thing that must hold in a rule set whose tables fit their schemas. */
export type Check = (tables: Tables) => readonly Finding[];

/** Every check there is; a new one is a function and its place in one of these lists. */
const checks: readonly Check[] = [
  ...headChecks,
  ...causeChecks,
  ...questionChecks,
  ...actionChecks,
];

export const checkTables = (tables: Tables): readonly Finding[] =>
  checks.flatMap((check) => check(tables));
