import {
  type GaugesRead,
  type Measured,
  recordFrom,
  recordQuestions,
  type WorkDone,
} from '../../../shared/upkeep/record.ts';
import { listPlantAnswers } from '../../store/repositories/answers.ts';
import { withdrawLinks } from '../../store/repositories/links.ts';
import { deletePlant, findPlant, insertPlant } from '../../store/repositories/plants.ts';
import { linkStrengths } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import { notFound } from '../problem.ts';
import { nameOf, plantNow, toAnswer } from './answer-rows.ts';
import { makeBothLinks } from './links.ts';
import type { ComputeView } from './views.ts';

/** A plant that is looked after: as it now is, with what was read at it and done to it. The shape `gaugewalk due` reads. */
export interface PlantFile {
  readonly plant: unknown;
  readonly history: readonly (GaugesRead | Measured)[];
  readonly done: readonly WorkDone[];
}

/** Puts a plant on record. Throws an InputError when it cannot be used. */
export async function openPlant(
  deps: Deps,
  views: ComputeView,
  plant: unknown,
): Promise<{ ref: string; id: string; readId: string }> {
  const now = deps.clock().toISOString();
  const ruleSet = deps.judge.ruleSets.at(-1) ?? '';
  await views({
    plant,
    answers: [],
    audience: 'technician',
    language: 'en',
    ruleSet,
    today: now.slice(0, 10),
  });
  const ref = deps.newRef();
  const name = nameOf(plant) ?? '';
  return deps.store.write(async (trx) => {
    await insertPlant(trx, {
      ref,
      name,
      search_text: name.toLowerCase(),
      plant: JSON.stringify(plant),
      created_at: now,
    });
    return { ref, ...(await makeBothLinks(deps, trx, { plantRef: ref }, now)) };
  });
}

/** Everything known of a plant over the years, from the answers of its cases. */
export async function readPlant({ store }: Pick<Deps, 'store'>, ref: string): Promise<PlantFile> {
  const row = await findPlant(store.db, ref);
  if (!row) throw notFound();
  const rows = await listPlantAnswers(store.db, ref, recordQuestions);
  const answers = rows.map((one) => ({
    ...toAnswer(one),
    at: one.at ?? one.received_at,
    caseRef: one.case_ref,
  }));
  return { plant: plantNow(row.plant, answers), ...recordFrom(answers) };
}

/** Removes a plant and its links; its cases stay, each on its own. */
export async function erasePlant(
  { store, clock }: Pick<Deps, 'store' | 'clock'>,
  ref: string,
): Promise<void> {
  const now = clock().toISOString();
  await store.write(async (trx) => {
    await withdrawLinks(trx, { plantRef: ref }, linkStrengths, now);
    await deletePlant(trx, ref);
  });
}
