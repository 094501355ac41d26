import type { Looked } from '../brain/protocol.ts';
import type { Say } from '../common/say.ts';
import { justDone } from '../ranking/cured.ts';
import type { KeptCase } from '../store/kept.ts';

/**
 * What came of the job, and what is left: jobs that are due anyway, a warning in force. Nothing more is needed only
 * where neither is and the fault is gone.
 */
export function afterWorkText(
  kept: KeptCase,
  { plan, result }: Pick<Looked, 'plan' | 'result'>,
  say: Say,
): string | null {
  const last = justDone(kept);
  if (!last?.proof) return null;
  const { outcome } = last.proof;
  const due = plan.flatMap(({ overdue, name }) => (overdue ? [name] : [])).join(', ');
  const said = [say('after-work', { done: say(`did-${outcome}`, { job: last.name }) })];
  if (due) said.push(say('after-work-due', { jobs: due }));
  if (result.cautions.length > 0) said.push(say('after-work-warned'));
  if (said.length === 1 && outcome === 'cured') said.push(say('after-work-over'));
  return said.join(' ');
}
