import { partsInPlace } from '../case/places.ts';
import type { Plant } from '../plant/schema.ts';
import type { Job } from '../ruleset/schema.ts';

/** What a job takes on the van to this plant. */
export const vanFor = ({ van, vanOnlyFor }: Job, plant: Plant): readonly string[] =>
  van.filter((item) => {
    const places = vanOnlyFor?.[item];
    return !places || places.some((place) => partsInPlace(place, plant).length > 0);
  });
