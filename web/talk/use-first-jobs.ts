import { useState } from 'hono/jsx/dom';
import type { Plant } from '../../shared/plant/schema.ts';
import { brain } from '../brain/client.ts';
import type { FirstJob, ShownJob } from '../brain/protocol.ts';
import { useEffect } from '../common/use-effect.ts';

export type FirstJobs = ReadonlyMap<string, FirstJob>;

const NONE: FirstJobs = new Map();

/** By what a job of a plan is known again in the next plan. */
export const jobKey = ({ job, cause, parts }: ShownJob): string => [job, cause, ...parts].join(' ');

/**
 * What this plant needs before each of these jobs can be begun there, in an agent's words; jobs that can be begun are left
 * out. Null until it is known: what is planned now must not be told by what an earlier plan needed.
 */
export function useFirstJobs(jobs: readonly ShownJob[], plant: Plant): FirstJobs | null {
  // each look at the case brings a copy of its plant
  const asked = JSON.stringify([plant, jobs.map(jobKey)]);
  const [found, setFound] = useState({ asked: '', first: NONE });
  useEffect(() => {
    // an answer for what is no longer planned comes too late
    let isPlanned = true;
    const firsts = jobs.map(async (job) => {
      const first = await brain.comesFirst(plant, 'agent', job.job, job.parts[0]);
      return first ? ([[jobKey(job), first]] as const) : [];
    });
    void Promise.all(firsts).then((all) => {
      if (isPlanned) setFound({ asked, first: new Map(all.flat()) });
    });
    return () => {
      isPlanned = false;
    };
  }, [asked]);
  if (jobs.length === 0) return NONE;
  return found.asked === asked ? found.first : null;
}
