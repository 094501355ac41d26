import type { FrequencyWord, RuleSet } from '../ruleset/schema.ts';
import type { Judgement } from './judge.ts';
import { priorityOf } from './priority.ts';
import type { Actor, Dispatch, PlannedJob, Stopped } from './result.ts';
import { vanFor } from './van.ts';
import { atHome, isWorthTrying } from './who.ts';

/** A cause at least this likely has its parts on the van; and a job that ends it at least this surely is the one. */
const LIKELY = 0.1;
const MENDS = 0.5;

/**
 * Whether the telephone is enough, or who goes with what. The plan already weighs a visit against trying at home; who
 * goes does all of theirs, and what else is left, in one visit.
 */
export function dispatchFor(
  judgement: Judgement,
  plan: readonly PlannedJob[],
  stopped: Stopped | null,
): Dispatch {
  if (stopped) return { decision: 'stop', who: null, van: [], oneVisit: null, priority: 'urgent' };
  const { priority } = priorityOf(judgement);
  const home = atHome(plan);
  const who = plan[home.length]?.by;
  if (!who || isWorthTrying(home))
    return { decision: 'phone', who: null, van: [], oneVisit: null, priority };
  const onVan = jobsOnVan(judgement, plan, who);
  const { rules, facts } = judgement;
  const van = onVan.flatMap((id) => {
    const job = rules.jobs[id];
    return job ? vanFor(job, facts.plant) : [];
  });
  return {
    decision: 'send',
    who,
    van: [...new Set(van)],
    oneVisit: Number(oneVisit(judgement, onVan).toFixed(3)),
    priority,
  };
}

/** Their own steps of the plan, the householder's, and what mends any other likely cause. */
function jobsOnVan(
  { rules, probabilities }: Judgement,
  plan: readonly PlannedJob[],
  who: Actor,
): string[] {
  // The last resort is finding out: what it then takes is what mends the likely causes.
  const planned = plan
    .filter((step) => step.by === who || step.by === 'householder')
    .map((step) => step.job)
    .filter((id) => !rules.jobs[id]?.lastResort);
  const likely = [...probabilities]
    .filter(([id, p]) => rules.causes[id] && p >= LIKELY)
    .map(([id]) => id);
  const mending = likely.flatMap((cause) => {
    const jobs = Object.entries(rules.jobs).filter(
      ([, job]) =>
        (job.by === who || job.by === 'householder') && chance(rules, job.cures[cause]) >= MENDS,
    );
    jobs.sort(([, a], [, b]) => chance(rules, b.cures[cause]) - chance(rules, a.cures[cause]));
    return jobs[0] ? [jobs[0][0]] : [];
  });
  return [...new Set([...planned, ...mending])];
}

const chance = (rules: RuleSet, word: FrequencyWord | undefined) =>
  word ? rules.head.frequencies[word] : 0;

/** Chance that the trouble, whatever it is, ends with the jobs that the van is loaded for: each cause by its surest job. */
function oneVisit(
  { rules, posterior, hydraulic, quality }: Judgement,
  jobs: readonly string[],
): number {
  const ends = (cause: string) =>
    Math.max(0, ...jobs.map((id) => chance(rules, rules.jobs[id]?.cures[cause])));
  const h = hydraulic.causes.map(ends);
  const q = quality.causes.map(ends);
  const all = (set: readonly number[], of: readonly number[]) =>
    set.reduce((p, c) => p * (of[c] ?? 0), 1);
  const rows = hydraulic.sets.map((set) => all(set, h));
  const columns = quality.sets.map((set) => all(set, q));
  let ended = 0;
  rows.forEach((row, i) => {
    // most sets hold a cause that nothing on the van ends
    if (row === 0) return;
    columns.forEach((column, j) => {
      ended += row * column * (posterior.joint[i * columns.length + j] ?? 0);
    });
  });
  return ended;
}
