import type { RuleSet } from '../ruleset/schema.ts';
import { withoutRepeats } from './same-saying.ts';
import type { Block } from './sets.ts';
import type { Observation } from './signs.ts';

/** What the hydraulics say: for each hydraulic set the prior odds of its places times the likelihood of what was solved. */
export interface HydraulicEvidence {
  readonly weight: Float64Array;
  /** likelihood under something not listed */
  readonly unlisted: number;
}

export interface PosteriorInput {
  readonly rules: RuleSet;
  readonly hydraulic: Block;
  readonly quality: Block;
  /** prior odds of the hydraulic sets alone; and of the quality sets */
  readonly hydraulicPrior: Float64Array;
  readonly qualityPrior: Float64Array;
  readonly evidence: HydraulicEvidence;
  readonly observations: readonly Observation[];
  /** answers the hydraulics took up, by question */
  readonly solved: ReadonlyMap<string, readonly string[]>;
}

/** Probabilities after all answers. `row`/`column` are the marginals of the hydraulic and quality sets. */
export interface Posterior {
  readonly row: Float64Array;
  readonly column: Float64Array;
  /** joint probability of hydraulic set h with quality set q at h·columns + q */
  readonly joint: Float64Array;
  readonly nothingWrong: number;
  readonly notListed: number;
  /** per question with sign tables: the marginals had it not been answered */
  readonly without: ReadonlyMap<string, Marginals>;
}

export interface Marginals {
  readonly row: Float64Array;
  readonly column: Float64Array;
  readonly nothingWrong: number;
  readonly notListed: number;
}

/** Exact, by enumeration: prior odds × likelihoods over every pair of sets, normalised. */
export function posteriorOf(input: PosteriorInput): Posterior {
  const observations = withoutRepeats(input.observations, input.solved, input.rules);
  const joint = product(input, observations);
  const unlisted = unlistedWeight(input, observations);
  const without = new Map<string, Marginals>();
  for (const question of new Set(input.observations.map((o) => o.question))) {
    const rest = input.observations.filter((o) => o.question !== question);
    const softened = withoutRepeats(rest, input.solved, input.rules);
    without.set(
      question,
      marginals(input, product(input, softened), unlistedWeight(input, softened)),
    );
  }
  const { row, column, nothingWrong, notListed, total } = marginals(input, joint, unlisted);
  return { row, column, nothingWrong, notListed, joint: joint.map((w) => w / total), without };
}

/** The marginals under other hydraulic evidence (one solved answer left out). */
export function marginalsWith(input: PosteriorInput): Marginals {
  const observations = withoutRepeats(input.observations, input.solved, input.rules);
  return marginals(input, product(input, observations), unlistedWeight(input, observations));
}

function product(input: PosteriorInput, observations: readonly Observation[]): Float64Array {
  const { evidence, hydraulicPrior, qualityPrior, rules } = input;
  const h = evidence.weight.slice();
  const q = qualityPrior.slice();
  for (const o of observations) {
    if (o.h) multiply(h, o.h);
    if (o.q) multiply(q, o.q);
  }
  const weights = new Float64Array(h.length * q.length);
  for (let i = 0; i < h.length; i++) {
    const row = h[i] ?? 0;
    for (let j = 0; j < q.length; j++) weights[i * q.length + j] = row * (q[j] ?? 0);
  }
  for (const o of observations) if (o.joint) multiply(weights, o.joint);
  const nothing = rules.head.asking.nothingWrong * singles(hydraulicPrior, qualityPrior, input);
  weights[0] = observations.reduce(
    (weight, o) => weight * o.nothing,
    nothing * (evidence.weight[0] ?? 1),
  );
  return weights;
}

function multiply(target: Float64Array, factor: Float64Array): void {
  for (let i = 0; i < target.length; i++) target[i] = (target[i] ?? 0) * (factor[i] ?? 1);
}

/** Sum of the prior odds of every single cause: what "nothing wrong" and "not listed" are measured against. */
function singles(h: Float64Array, q: Float64Array, { hydraulic, quality }: PosteriorInput): number {
  let sum = 0;
  for (let i = 1; i <= hydraulic.causes.length; i++) sum += h[i] ?? 0;
  for (let j = 1; j <= quality.causes.length; j++) sum += q[j] ?? 0;
  return sum;
}

function unlistedWeight(input: PosteriorInput, observations: readonly Observation[]): number {
  const prior =
    input.rules.head.asking.notListed * singles(input.hydraulicPrior, input.qualityPrior, input);
  return observations.reduce((weight, o) => weight * o.unlisted, prior * input.evidence.unlisted);
}

function marginals(
  input: PosteriorInput,
  joint: Float64Array,
  unlisted: number,
): Marginals & { total: number } {
  const columns = input.qualityPrior.length;
  const row = new Float64Array(input.hydraulicPrior.length);
  const column = new Float64Array(columns);
  for (let i = 0; i < row.length; i++) {
    let sum = 0;
    for (let j = 0; j < columns; j++) {
      const w = joint[i * columns + j] ?? 0;
      sum += w;
      column[j] = (column[j] ?? 0) + w;
    }
    row[i] = sum;
  }
  const total = row.reduce((a, b) => a + b, unlisted);
  return {
    row: row.map((w) => w / total),
    column: column.map((w) => w / total),
    nothingWrong: (joint[0] ?? 0) / total,
    notListed: unlisted / total,
    total,
  };
}
