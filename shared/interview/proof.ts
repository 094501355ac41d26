import type { Answer } from '../case/answer.ts';
import { tellsOfWork } from '../case/work-done.ts';
import type { RuleSet } from '../ruleset/schema.ts';

/** Whether work was done and nothing has been measured with water running since: its proof is still to come. */
export function awaitsProof(answers: readonly Answer[], rules: RuleSet): boolean {
  const work = answers.findLastIndex(tellsOfWork);
  if (work < 0) return false;
  const measured = new Set<string>();
  for (const answer of answers.slice(work + 1)) {
    if (measures(answer, rules)) measured.add(answer.question);
    else if (answer.value === null) measured.delete(answer.question);
  }
  return measured.size === 0;
}

/** A measurement with water running, made or known to be impossible. */
function measures({ question, value }: Answer, rules: RuleSet): boolean {
  const kind = rules.questions[question]?.kind;
  if (value === null) return false;
  if (kind === 'flow') return true;
  if (kind !== 'readings') return false;
  return typeof value !== 'object' || (value as { readonly taps?: unknown }).taps !== 'closed';
}
