import { InputError } from '../common/errors.ts';
import type { Part, Plant } from '../plant/schema.ts';
import type { PlaceKind } from '../ruleset/cause.ts';
import type { Job, RuleSet } from '../ruleset/schema.ts';

/**
 * Which parts of a plant a rule set's place names mean. Places that are no part of their own (a control, the line as a
 * whole) lie in the part that carries them, so that segments between gauges apply to them too.
 */
export function partsInPlace(place: PlaceKind, plant: Plant): string[] {
  const { line } = plant;
  const ids = (fits: (part: Part) => boolean) => line.filter(fits).map((part) => part.id);
  switch (place) {
    case 'line':
      return [...supplyPipe(line), ...ids((part) => part.kind === 'house')];
    case 'plant':
    case 'house':
    case 'outlet':
      return ids((part) => part.kind === 'house');
    case 'control':
      return ids((part) => part.kind === 'pump' && part.control?.kind !== 'none');
    case 'check-valve':
      return ids(
        (part) =>
          part.kind === 'check-valve' ||
          (part.kind === 'pump' && part.checkValve !== false) ||
          (part.kind === 'suction' && part.footValve === true),
      );
    case 'reducer':
      return ids((part) => part.kind === 'pressure-reducer');
    case 'sediment':
    case 'carbon':
    case 'membrane':
    case 'softener':
      return ids((part) => part.kind === 'filter' && part.medium === place);
    default:
      return ids((part) => part.kind === place);
  }
}

/** Whether the plant has any of these places. */
export const hasAny = (places: readonly PlaceKind[], plant: Plant): boolean =>
  places.some((place) => partsInPlace(place, plant).length > 0);

/** Where no pump stands between, the pipe from the tank is as long as the hill; it lies in the part the water leaves by. */
function supplyPipe(line: Plant['line']): string[] {
  if (line.some(({ kind }) => kind === 'pump')) return [];
  const from =
    line.find(({ kind }) => kind === 'suction') ?? line.find(({ kind }) => kind === 'tank');
  return from ? [from.id] : [];
}

/**
 * A gauge that still sees the pump when a valve past it is shut, and that valve: only there can what the pump gives, or
 * what passes back through it, be told from what the house does. null: every valve stands before the gauges.
 */
export function gaugeBeforeValve({ line }: Plant): { gauge: string; valve: string } | null {
  const pumpAt = line.findIndex(({ kind }) => kind === 'pump');
  const gaugeAt = line.findIndex(({ kind }, i) => kind === 'gauge' && i > pumpAt);
  const gauge = line[gaugeAt];
  const valve = gauge && line.find(({ kind }, i) => kind === 'valve' && i > gaugeAt);
  return valve && gauge ? { gauge: gauge.id, valve: valve.id } : null;
}

/** The parts a job works on when none are named: wherever the causes it cures can sit. */
export function partsOfJob(job: Job, rules: RuleSet, plant: Plant): string[] {
  const ids = new Set<string>();
  for (const causeId of Object.keys(job.cures)) {
    const cause = rules.causes[causeId];
    if (cause) for (const id of partsInPlace(cause.in, plant)) ids.add(id);
  }
  return plant.line.map((part) => part.id).filter((id) => ids.has(id));
}

/**
 * A job that is done part by part is for the parts whose causes it cures; any other stands where the work takes place.
 * @throws InputError for a part it is not for, naming those there are
 */
export function checkPartOfJob(
  jobId: string,
  part: string,
  rules: RuleSet,
  plant: Plant,
  where: string,
): void {
  const job = rules.jobs[jobId];
  const parts = job?.perPart ? partsOfJob(job, rules, plant) : [part];
  if (parts.includes(part)) return;
  const list = parts.join(', ') || 'none here';
  throw new InputError(where, `${jobId} is no job for part "${part}"; it is for ${list}`);
}
