import type { Actor } from '../diagnosis/result.ts';
import type { Plant } from '../plant/schema.ts';
import { featuresOf, targetIndex } from './features.ts';
import type { WorkRules } from './schema.ts';
import { sheetOf } from './sheet.ts';

/** A job that must be done before another, and who does it. */
export interface FirstJob {
  readonly job: string;
  readonly by: Actor;
}

/**
 * The job that must be done on this plant before another can be begun: where the plant gives no safe way, or nothing to
 * see by, a sheet hands over at its very first step. Null: it can be begun as the plant stands.
 * @param part where it would be done; left out: where the job finds its own place
 */
export function comesFirst(
  job: string,
  part: string | undefined,
  plant: Plant,
  work: WorkRules,
): FirstJob | null {
  const table = work.jobs[job];
  if (!table) return null;
  const { steps } = sheetOf(work, job, featuresOf(plant, targetIndex(plant, table.at, part)));
  const [first] = steps;
  const leadsTo = first?.ends === 'handed-over' ? first.leadsTo : undefined;
  const by = work.jobs[leadsTo ?? '']?.by;
  return leadsTo && by ? { job: leadsTo, by } : null;
}
