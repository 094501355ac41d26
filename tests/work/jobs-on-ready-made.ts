import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { featuresOf, targetIndex } from '../../shared/work/features.ts';
import { placesFor } from '../../shared/work/job.ts';
import { rules, work } from './files.ts';

const plants = [...readyMade.map(({ plant }) => plant), fernhollow];

/** Every job on every part of the ready-made plants it can be done on. */
export const jobsOnReadyMade = Object.keys(work.jobs).flatMap((job) =>
  plants.flatMap((plant) =>
    placesFor(job, plant, { rules, work }).map((part) => ({
      ...{ job, plant, part },
      features: featuresOf(plant, targetIndex(plant, work.jobs[job]!.at, part)),
    })),
  ),
);
