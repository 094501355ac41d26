import { InputError } from '../common/errors.ts';
import { applies, type PlantFeatures } from './features.ts';
import type { Found, StepList, StepTable, WorkRules } from './schema.ts';

/** A step of a sheet, with where it was written: section, id and index in `work/*.yaml`. */
export interface SheetStep extends Omit<StepTable, 'by' | 'words'> {
  readonly by: NonNullable<StepTable['by']>;
  readonly words: string;
  readonly origin: {
    readonly section: 'jobs' | 'blocks' | 'branches';
    readonly id: string;
    readonly path: readonly PropertyKey[];
  };
}

export interface SheetBranch {
  readonly then: 'retry' | 'go-on' | 'hand-over';
  readonly steps: readonly SheetStep[];
}

/** One job on one plant: the steps that apply, blocks written out, and the ways aside they can lead to. */
export interface Sheet {
  readonly job: string;
  readonly by: SheetStep['by'];
  readonly found: readonly Found[];
  readonly features: PlantFeatures;
  readonly steps: readonly SheetStep[];
  readonly branches: Readonly<Record<string, SheetBranch>>;
}

/**
 * Writes out the sheet of a job for a plant with these features.
 * @throws InputError when the rule set has no such job, or a step names a block or branch that is not there
 */
export function sheetOf(work: WorkRules, jobId: string, plant: PlantFeatures): Sheet {
  const job = work.jobs[jobId];
  if (!job) {
    const known = Object.keys(work.jobs).join(', ');
    throw new InputError('job', `no job sheet "${jobId}"; there are ${known}`);
  }
  const features = { ...plant, trade: job.by !== 'householder' };
  const write = (list: StepList, section: 'jobs' | 'branches', id: string): SheetStep[] =>
    list.flatMap((item, i) => {
      if (!('use' in item)) return placed(item, { section, id, path: ['steps', i] });
      const block = work.blocks[item.use];
      if (!block) throw new InputError(`${section} › ${id}`, `no block "${item.use}"`);
      return block.flatMap((inner, j) => {
        if ('use' in inner)
          throw new InputError(`blocks › ${item.use}`, 'a block uses no other block');
        return placed(inner, { section: 'blocks', id: item.use, path: [j] });
      });
    });
  const placed = (step: StepTable, origin: SheetStep['origin']): SheetStep[] =>
    applies(step.when, features)
      ? [
          {
            ...step,
            by: step.by ?? job.by,
            words: step.words ?? step.id,
            needs: step.needs.filter((need) =>
              applies(work.conditions[need]?.when ?? {}, features),
            ),
            answers: Object.fromEntries(
              Object.entries(step.answers).filter(([, answer]) => applies(answer.when, features)),
            ),
            origin,
          },
        ]
      : [];

  const steps = write(job.steps, 'jobs', jobId);
  const branches: Record<string, SheetBranch> = {};
  const bring = (id: string, whence: string): void => {
    if (branches[id]) return;
    const table = work.branches[id];
    if (!table) throw new InputError(whence, `no branch "${id}"`);
    branches[id] = { then: table.then, steps: write(table.steps, 'branches', id) };
    follow(branches[id].steps);
  };
  const follow = (from: readonly SheetStep[]): void => {
    for (const step of from) {
      for (const outcome of [step, ...Object.values(step.answers)]) {
        if ('branch' in outcome && outcome.branch !== undefined)
          bring(outcome.branch, `step ${step.id}`);
        for (const made of outcome.makes) {
          const mends = work.conditions[made]?.mends;
          if (mends !== undefined) bring(mends, `conditions › ${made}`);
        }
      }
    }
  };
  follow(steps);
  return { job: jobId, by: job.by, found: job.found, features, steps, branches };
}
