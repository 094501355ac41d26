import type { Judgement } from './judge.ts';
import type { Dispatch, PlannedJob, Stopped } from './result.ts';

/**
 * Whether the telephone is enough, or who goes with what. The plan already weighs a visit against trying at home: its
 * first step says which comes first; who goes does all of theirs in one visit.
 */
export function dispatchFor(
  judgement: Judgement,
  plan: readonly PlannedJob[],
  stopped: Stopped | null,
): Dispatch {
  const priority = priorityOf(judgement, stopped);
  if (stopped) return { decision: 'stop', who: null, van: [], oneVisit: null, priority: 'urgent' };
  const first = plan[0];
  if (!first || first.by === 'householder')
    return { decision: 'phone', who: null, van: [], oneVisit: null, priority };
  const who = first.by;
  // On site the same person does their own jobs and those the householder could have done.
  const theirs = plan.filter((step) => step.by === who || step.by === 'householder');
  const unsolved = theirs.reduce((left, step) => left * (1 - step.cures), 1);
  const van = theirs.flatMap((step) => judgement.rules.jobs[step.job]?.van ?? []);
  return {
    decision: 'send',
    who,
    van: [...new Set(van)],
    oneVisit: Number((1 - unsolved).toFixed(3)),
    priority,
  };
}

function priorityOf({ facts, rules }: Judgement, stopped: Stopped | null): Dispatch['priority'] {
  if (stopped) return 'urgent';
  const told = (
    rows: readonly { readonly question: string; readonly oneOf: readonly string[] }[],
  ) =>
    rows.some(({ question, oneOf }) => {
      const value = facts.values.get(question);
      return (Array.isArray(value) ? value : [value]).some((item) => oneOf.includes(String(item)));
    });
  return told(rules.head.urgent) ? 'urgent' : told(rules.head.soon) ? 'soon' : 'normal';
}
