import type { Audience, Costs } from '../case/answer.ts';
import type { Job, RuleSet } from '../ruleset/schema.ts';
import type { Actor } from './result.ts';

/**
 * What doing a job costs: its minutes, its parts, and having somebody come unless they are there already. In minutes by
 * the rule set's figures, or in money where the case gives its own.
 */
export interface Pricing {
  readonly of: (job: Job, places: number, there: ReadonlySet<Actor>) => number;
  /** one minute of answering questions, in the same unit */
  readonly perMinute: number;
  /** who stands at the plant already */
  readonly there: ReadonlySet<Actor>;
}

/** A second housing of the same kind goes faster: the plant is shut down already (common practice). */
const NEXT_PLACE_SHARE = 0.5;

export function pricingOf(rules: RuleSet, audience: Audience, costs: Costs | undefined): Pricing {
  const { visitMinutes, minutesPerMoney } = rules.head;
  const there = new Set<Actor>(
    audience === 'technician' ? ['householder', 'technician'] : ['householder'],
  );
  const perMinute = costs ? costs.perHour / 60 : 1;
  return {
    of: (job, places, present) => {
      const minutes = minutesOf(job, places);
      const money = job.money * Math.max(1, job.perPart ? places : 1);
      const comes = !present.has(job.by) && job.by !== 'householder';
      if (costs) return minutes * perMinute + money + (comes ? costs.callOut : 0);
      return (
        minutes +
        money * minutesPerMoney +
        (comes ? visitMinutes[job.by as keyof typeof visitMinutes] : 0)
      );
    },
    perMinute,
    there,
  };
}

export function minutesOf(job: Job, places: number): number {
  return job.perPart ? job.minutes * (1 + NEXT_PLACE_SHARE * Math.max(0, places - 1)) : job.minutes;
}
