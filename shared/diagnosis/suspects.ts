import type { Facts } from '../case/facts.ts';
import { partsInPlace } from '../case/places.ts';
import type { Cause } from '../ruleset/cause.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { type Age, ageOf } from './ages.ts';
import { isGiven } from './condition.ts';

/** One cause in one place: what may be wrong, and how likely before anything was observed. */
export interface Suspect {
  readonly cause: string;
  readonly part: string;
  readonly table: Cause;
  /** odds of being present when somebody asks for help */
  readonly odds: number;
}

export interface Suspects {
  readonly hydraulic: readonly Suspect[];
  readonly quality: readonly Suspect[];
  /** merely overdue, and nothing told asks for it: cause → chance that it is past its life; takes no place among the causes sought */
  readonly overdue: ReadonlyMap<string, { readonly probability: number; readonly part: string }>;
}

/**
 * The causes this plant can have, with prior odds = yearly rate × time until noticed × age × recent work × cold.
 * Age multiplies by (age/life)^1.5 within 0.15–4: wear-out faults grow faster than linearly (common practice).
 */
export function suspectsOf(facts: Facts, rules: RuleSet): Suspects {
  const hydraulic: Suspect[] = [];
  const quality: Suspect[] = [];
  const overdue = new Map<string, { probability: number; part: string }>();
  const pump = facts.plant.line.find((part) => part.kind === 'pump');
  // A pump whose control nobody named may have any.
  const control = pump ? pump.control?.kind : 'none';
  for (const [id, cause] of Object.entries(rules.causes)) {
    if (cause.control && control && !cause.control.includes(control)) continue;
    for (const partId of partsInPlace(cause.in, facts.plant)) {
      const part = facts.plant.line.find((p) => p.id === partId);
      if (!part) continue;
      const age = ageOf(cause, part, facts, rules);
      const past = cause.pastLife && age;
      if (past && !cause.soughtWhen?.some((answered) => isGiven(answered, facts, rules))) {
        const probability = pastLifeChance(age);
        if (probability > (overdue.get(id)?.probability ?? -1))
          overdue.set(id, { probability, part: partId });
        continue;
      }
      const usual =
        ((cause.ratePerYear * cause.noticedDays) / 365) *
        workFactor(id, partId, cause, facts, rules) *
        coldFactor(cause, facts);
      const odds = past
        ? oddsOf(pastLifeChance(age, usual / (1 + usual)))
        : usual * (age ? ageOdds(age.share) : 1);
      (cause.block === 'hydraulic' ? hydraulic : quality).push({
        cause: id,
        part: partId,
        table: cause,
        odds,
      });
    }
  }
  return { hydraulic: sharePlaces(hydraulic), quality: sharePlaces(quality), overdue };
}

/** × odds by age as a share of life. */
export const ageOdds = (share: number): number => Math.min(4, Math.max(0.15, share ** 1.5));

/** A rate is the plant's where one hidden place of several is at fault, so the places share it by equal parts. */
function sharePlaces(suspects: readonly Suspect[]): Suspect[] {
  const places = new Map<string, number>();
  for (const { cause } of suspects) places.set(cause, (places.get(cause) ?? 0) + 1);
  return suspects.map((suspect) =>
    suspect.table.each
      ? suspect
      : { ...suspect, odds: suspect.odds / (places.get(suspect.cause) ?? 1) },
  );
}

const oddsOf = (probability: number) => probability / (1 - probability);

/**
 * A counter is nearly exact; burning hours from a date assume 24 h a day, and about one record in ten is not kept up.
 * `unkeptPast`: how often the life is over where the record is wrong (common practice).
 */
const RECORDS = {
  counter: { kept: 0.98, spread: 0.02, unkeptPast: 1 / 2 },
  date: { kept: 0.88, spread: 0.08, unkeptPast: 1 / 6 },
};

/** The chance that a life is over. @param ifUnkept × where the record is wrong: what is sought is then as rare as ever */
function pastLifeChance({ share, source }: Age, ifUnkept = 1): number {
  const { kept, spread, unkeptPast } = RECORDS[source];
  const past = 1 / (1 + Math.exp(-(share - 1) / (spread / 1.7)));
  return kept * past + (1 - kept) * unkeptPast * ifUnkept;
}

function workFactor(id: string, part: string, cause: Cause, facts: Facts, rules: RuleSet): number {
  let factor = 1;
  const recent = new Set<string>();
  for (const [questionId, question] of Object.entries(rules.questions)) {
    const list = facts.values.get(questionId);
    if (question.combine === 'none' && question.kind === 'list' && Array.isArray(list)) {
      for (const item of list) recent.add(item);
    }
  }
  for (const work of facts.work) {
    const job = rules.jobs[work.job];
    if (!job) continue;
    if (job.countsAs) recent.add(job.countsAs);
    const cure = job.cures[id];
    if (cure && work.parts.includes(part)) factor *= 1 - rules.head.frequencies[cure];
  }
  for (const work of recent) factor *= cause.afterWork[work] ?? 1;
  return factor;
}

function coldFactor(cause: Cause, facts: Facts): number {
  if (!cause.belowC) return 1;
  const waterC = facts.plant.waterTempC;
  return waterC !== undefined && waterC < cause.belowC.waterC ? cause.belowC.times : 1;
}
