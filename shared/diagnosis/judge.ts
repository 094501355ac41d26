import type { Facts } from '../case/facts.ts';
import { partsInPlace } from '../case/places.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import {
  type Candidate,
  candidatesOf,
  evidenceOf,
  type PlacedEvidence,
  priorOf,
} from './evidence.ts';
import { type Model, modelOf } from './model.ts';
import { type Marginals, type Posterior, type PosteriorInput, posteriorOf } from './posterior.ts';
import { type Measured, measuredOf } from './scenario.ts';
import { type Block, blockOf } from './sets.ts';
import {
  NOT_LISTED,
  NOTHING,
  type Observation,
  observationsOf,
  type SignContext,
} from './signs.ts';
import { type Suspects, suspectsOf } from './suspects.ts';

/** Everything the posterior is made of, for reasons, the next question, the plan and the report. */
export interface Judgement {
  readonly facts: Facts;
  readonly rules: RuleSet;
  readonly model: Model;
  readonly suspects: Suspects;
  readonly hydraulic: Block;
  readonly quality: Block;
  readonly candidates: readonly Candidate[];
  readonly measured: Measured;
  readonly evidence: PlacedEvidence;
  readonly posterior: Posterior;
  /** cause → probability of being present, "nothing-wrong" and "not-listed" among them */
  readonly probabilities: ReadonlyMap<string, number>;
  /** what an answer weighs: question → the probabilities had it not been given */
  readonly without: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly signContext: SignContext;
}

export function judge(facts: Facts, rules: RuleSet): Judgement {
  const suspects = suspectsOf(facts, rules);
  const hydraulic = blockOf([...new Set(suspects.hydraulic.map((s) => s.cause))]);
  const quality = blockOf([...new Set(suspects.quality.map((s) => s.cause))]);
  const model = modelOf(facts, rules);
  const candidates = candidatesOf(suspects.hydraulic, hydraulic, model);
  const measured = measuredOf(model, facts, rules);
  const evidence = evidenceOf(candidates, hydraulic, measured);
  const signContext: SignContext = {
    rules,
    hydraulic,
    quality,
    overdue: suspects.overdue,
    replaced: replacedBy(facts, rules),
  };
  const input: PosteriorInput = {
    rules,
    hydraulic,
    quality,
    hydraulicPrior: priorOf(suspects.hydraulic, hydraulic),
    qualityPrior: priorOf(suspects.quality, quality),
    evidence,
    evidenceWithout: evidence.without,
    observations: observations(facts, rules, signContext),
    solved: solvedAnswers(facts, rules),
  };
  const posterior = posteriorOf(input);
  const read = (marginals: Marginals) => probabilitiesOf(marginals, hydraulic, quality, suspects);
  const without = new Map(
    [...posterior.without].map(([question, marginals]) => [question, read(marginals)]),
  );
  return {
    facts,
    rules,
    model,
    suspects,
    hydraulic,
    quality,
    candidates,
    measured,
    evidence,
    posterior,
    probabilities: read(posterior),
    without,
    signContext,
  };
}

function observations(facts: Facts, rules: RuleSet, context: SignContext): Observation[] {
  // In the rule set's order, so that the order of answering changes nothing.
  return Object.keys(rules.questions).flatMap((id) =>
    facts.values.has(id) ? observationsOf(id, facts.values.get(id), context) : [],
  );
}

/** Solved answers that are words ("silent"), so that soft answers saying the same are not counted again. */
function solvedAnswers(facts: Facts, rules: RuleSet): Map<string, readonly string[]> {
  const solved = new Map<string, readonly string[]>();
  for (const [id, question] of Object.entries(rules.questions)) {
    const value = question.combine === 'solved' ? facts.values.get(id) : undefined;
    if (typeof value === 'string') solved.set(id, [value]);
  }
  return solved;
}

/**
 * A reading replaces a soft symptom only for causes whose part lies in a segment that was read (between two read gauges
 * for open taps; anywhere for a measured flow).
 */
function replacedBy(facts: Facts, rules: RuleSet): SignContext['replaced'] {
  const measuredParts = {
    open: new Set<string>(),
    closed: new Set<string>(),
    flow: new Set<string>(),
  };
  for (const readings of facts.readings.values()) {
    const target = readings.taps === 'closed' ? measuredParts.closed : measuredParts.open;
    const read = facts.plant.line.flatMap((part, i) =>
      typeof readings.bar[part.id] === 'number' ? [i] : [],
    );
    const [first, last] = [read[0], read.at(-1)];
    if (first === undefined || last === undefined) continue;
    facts.plant.line.forEach((part, i) => {
      if (i > first && i < last) target.add(part.id);
    });
  }
  const hasFlow = Object.entries(rules.questions).some(
    ([id, q]) => q.kind === 'flow' && facts.values.has(id),
  );
  if (hasFlow) for (const part of facts.plant.line) measuredParts.flow.add(part.id);
  // Worked out once: this is asked for every cause and answer.
  const replaced = new Set<string>();
  for (const rule of rules.head.replaces) {
    for (const [cause, { block, changes, in: place }] of Object.entries(rules.causes)) {
      if (block !== 'hydraulic' || changes.length === 0) continue;
      if (!partsInPlace(place, facts.plant).some((part) => measuredParts[rule.reading].has(part)))
        continue;
      for (const answer of rule.oneOf) replaced.add(`${rule.question} ${answer} ${cause}`);
    }
  }
  if (replaced.size === 0) return () => false;
  return (cause, question, answer) => replaced.has(`${question} ${answer} ${cause}`);
}

function probabilitiesOf(
  marginals: Marginals,
  hydraulic: Block,
  quality: Block,
  suspects: Suspects,
): Map<string, number> {
  const probabilities = new Map<string, number>();
  const add = ({ causes, sets }: Block, chances: Float64Array) => {
    const sums = new Float64Array(causes.length);
    for (let i = 0; i < sets.length; i++) {
      const set = sets[i] ?? [];
      for (let k = 0; k < set.length; k++) {
        const c = set[k] ?? 0;
        sums[c] = (sums[c] ?? 0) + (chances[i] ?? 0);
      }
    }
    causes.forEach((cause, c) => {
      probabilities.set(cause, sums[c] ?? 0);
    });
  };
  add(hydraulic, marginals.row);
  add(quality, marginals.column);
  for (const [cause, { probability }] of suspects.overdue) probabilities.set(cause, probability);
  probabilities.set(NOTHING, marginals.nothingWrong);
  probabilities.set(NOT_LISTED, marginals.notListed);
  return probabilities;
}
