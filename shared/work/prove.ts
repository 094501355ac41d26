import type { PlaceKind } from '../ruleset/cause.ts';
import type { Finding } from '../ruleset/finding.ts';
import { featureCases } from './cases.ts';
import { isAtPump, type PlantFeatures } from './features.ts';
import type { PlaceOfWork } from './read.ts';
import type { WorkRules } from './schema.ts';
import { type Search, search } from './search.ts';
import { type Sheet, type SheetStep, sheetOf } from './sheet.ts';

/** A way to get hurt, or to be left without water, found in the job sheets; `path` leads there step by step. */
export interface WorkFinding extends Finding {
  readonly job: string;
  /** the kind of plant it was found on; null when it is so on all */
  readonly features: PlantFeatures | null;
  readonly path: readonly string[];
}

export interface Proof {
  readonly findings: readonly WorkFinding[];
  /** different sheets explored, and states in all of them together */
  readonly sheets: number;
  readonly states: number;
}

/**
 * Explores every reachable state of every job for every kind of plant and reports each step that opens a wetted part, a
 * live part or an unshielded lamp without its conditions, each job that cannot be finished, and each that ends with
 * valves, bypass, power or lamp not back in service.
 *
 * @param kinds what plants offer; all kinds there are when left out
 * @param upsets what may go wrong between steps: long breaks, or also each condition found lost by itself (slow)
 */
export function proveJobs(
  work: WorkRules,
  placed: PlaceOfWork,
  kinds: readonly PlantFeatures[] = featureCases(),
  upsets: 'breaks' | 'all' = 'breaks',
  jobs: readonly string[] = Object.keys(work.jobs),
): Proof {
  const findings = new Map<string, WorkFinding>();
  // jobs with the same steps have the same proof
  const proved = new Map<string, Search>();
  let states = 0;
  for (const job of jobs) {
    let canBeDone = false;
    for (const [key, sheet] of differentSheets(work, job, kinds)) {
      const known = proved.get(key);
      const result = known ?? search(sheet, work.conditions, upsets);
      if (!known) states += result.states;
      proved.set(key, result);
      canBeDone ||= result.canBeDone;
      const { features } = sheet;
      for (const { message, step, path } of result.breaches) {
        const key = `${job} ${step?.id} ${message}`;
        if (findings.has(key)) continue;
        const origin = step?.origin ?? { section: 'jobs' as const, id: job, path: [] };
        const at = step ? `${job} › ${step.id}` : job;
        findings.set(key, {
          ...placed(origin.section, origin.id, origin.path),
          message: `${at}: ${message}; the way there: ${path.join(' → ')}`,
          mend: 'let an earlier step make what this one needs, or put the step elsewhere',
          job,
          features,
          path,
        });
      }
      const isNotForThisPlant = sheet.steps.some((step) => step.ends === 'handed-over');
      if (!result.canBeDone && !isNotForThisPlant) unfinished(job, features);
    }
    if (!canBeDone) unfinished(job, null);
  }
  return { findings: [...findings.values()], sheets: proved.size, states };

  function unfinished(job: string, features: PlantFeatures | null): void {
    if (findings.has(`${job} unfinished`)) return;
    findings.set(`${job} unfinished`, {
      ...placed('jobs', job),
      message: `${job}: can never be finished`,
      mend: 'give the sheet a way to its last step',
      job,
      features,
      path: [],
    });
  }
}

/** Whether what the plant offers can be what is around such a place: a bleed sits on a filter, the vessel on its own tee. */
function canBe(features: PlantFeatures, at: PlaceKind | undefined): boolean {
  const isFilter = at === 'sediment' || at === 'carbon' || at === 'membrane' || at === 'softener';
  if (features.bleed && !isFilter) return false;
  if ((features.uv === 'here') !== (at === 'uv')) return false;
  if (at && isAtPump(at))
    return features.pump && features.supply !== 'valve' && features.uv !== 'before';
  switch (at) {
    case 'vessel':
      return features.pump && features.vessel === 'inside';
    case 'tank':
      return features.uv !== 'before';
    case 'house':
    case 'outlet':
    case 'line':
      return features.uv !== 'after' && !features.far;
    default:
      return true;
  }
}

/** The sheets of a job over all kinds of plant, each different one once, by what the search depends on. */
function differentSheets(
  work: WorkRules,
  job: string,
  kinds: readonly PlantFeatures[],
): Map<string, Sheet> {
  const sheets = new Map<string, Sheet>();
  for (const features of kinds.filter((each) => canBe(each, work.jobs[job]?.at))) {
    const sheet = sheetOf(work, job, features);
    const { pump, uv, mains, supply } = features;
    const branches = Object.entries(sheet.branches).map(([id, { then, steps }]) => [
      id,
      then,
      steps.map(bare),
    ]);
    const key = JSON.stringify([
      sheet.steps.map(bare),
      branches,
      sheet.found,
      [pump, uv, mains, supply],
    ]);
    if (!sheets.has(key)) sheets.set(key, sheet);
  }
  return sheets;
}

/** A step without what is only shown. */
const bare = ({
  id,
  by,
  needs,
  if: only,
  does,
  makes,
  loses,
  raises,
  earns,
  ends,
  answers,
}: SheetStep) => [...[id, by, needs, only, does, makes, loses, raises, earns, ends, answers]];
