import type { RuleSet } from '../ruleset/schema.ts';
import { repeatChances, soften } from './same-saying.ts';
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
  /** the evidence with one solved answer left out, by question */
  readonly evidenceWithout: ReadonlyMap<string, HydraulicEvidence>;
  readonly observations: readonly Observation[];
  /** answers the hydraulics took up, by question */
  readonly solved: ReadonlyMap<string, readonly string[]>;
}

/** Probabilities of the hydraulic sets (`row`), of the quality sets (`column`) and of the two ends. */
export interface Marginals {
  readonly row: Float64Array;
  readonly column: Float64Array;
  readonly nothingWrong: number;
  readonly notListed: number;
}

/** Probabilities after all answers. */
export interface Posterior extends Marginals {
  /** joint probability of hydraulic set h with quality set q at h·columns + q */
  readonly joint: Float64Array;
  /** per answered question: the marginals had it not been answered */
  readonly without: ReadonlyMap<string, Marginals>;
}

/** Everything that multiplies: vectors of one block, and factors of both. */
interface Factors {
  readonly h: Float64Array;
  readonly q: Float64Array;
  readonly joints: readonly Float64Array[];
  readonly nothing: number;
  readonly unlisted: number;
}

/** Which sets weigh anything; the rest cannot come back when one answer is left out. */
interface Reach {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
}

const NEGLIGIBLE = 1e-12;

/** Exact, by enumeration: prior odds × likelihoods over every pair of sets, normalised. */
export function posteriorOf(input: PosteriorInput): Posterior {
  const everything: Reach = {
    rows: input.hydraulic.sets.map((_, i) => i),
    columns: input.quality.sets.map((_, j) => j),
  };
  const softened = softener();
  const all = factorsOf(input, null, softened);
  const product = productOf(all.joints, everything);
  const joint = new Float64Array(product.length);
  const whole = marginalsOf(all, product, everything, joint);
  const reach: Reach = {
    rows: everything.rows.filter((i) => (whole.row[i] ?? 0) > NEGLIGIBLE),
    columns: everything.columns.filter((j) => (whole.column[j] ?? 0) > NEGLIGIBLE),
  };
  const answered = new Set([
    ...input.observations.map((o) => o.question),
    ...input.evidenceWithout.keys(),
  ]);
  const without = new Map<string, Marginals>();
  for (const question of answered) {
    const factors = factorsOf(input, question, softened);
    const left = withoutJoint(product, all.joints, factors.joints, everything, reach);
    without.set(question, marginalsOf(factors, left, reach, null));
  }
  for (let k = 0; k < joint.length; k++) joint[k] = (joint[k] ?? 0) / whole.total;
  return { ...whole, joint, without };
}

/** Softened observations, each made once: leaving one answer out changes few of the others. */
function softener() {
  const made = new Map<Observation, Map<number, Observation>>();
  return (o: Observation, chance: number): Observation => {
    const known = made.get(o) ?? new Map<number, Observation>();
    made.set(o, known);
    const soft = known.get(chance) ?? soften(o, chance);
    known.set(chance, soft);
    return soft;
  };
}

/** @param skip a question left out */
function factorsOf(
  input: PosteriorInput,
  skip: string | null,
  softened: ReturnType<typeof softener>,
): Factors {
  const { rules, hydraulicPrior, qualityPrior } = input;
  const evidence = (skip !== null && input.evidenceWithout.get(skip)) || input.evidence;
  const observations =
    skip === null ? input.observations : input.observations.filter((o) => o.question !== skip);
  const solved = new Map([...input.solved].filter(([question]) => question !== skip));
  const chances = repeatChances(observations, solved, rules);
  const told = observations.map((o, i) => softened(o, chances[i] ?? 0));
  const h = evidence.weight.slice();
  const q = qualityPrior.slice();
  const joints: Float64Array[] = [];
  for (const o of told) {
    if (o.h) multiply(h, o.h);
    if (o.q) multiply(q, o.q);
    if (o.joint) joints.push(o.joint);
  }
  const prior = singles(hydraulicPrior, qualityPrior, input);
  const { nothingWrong, notListed } = rules.head.asking;
  return {
    h,
    q,
    joints,
    nothing: told.reduce(
      (weight, o) => weight * o.nothing,
      nothingWrong * prior * (evidence.weight[0] ?? 1),
    ),
    unlisted: told.reduce(
      (weight, o) => weight * o.unlisted,
      notListed * prior * evidence.unlisted,
    ),
  };
}

function multiply(target: Float64Array, factor: Float64Array): void {
  for (let i = 0; i < target.length; i++) target[i] = (target[i] ?? 0) * (factor[i] ?? 1);
}

/** The product of joint factors at row h, column q; cells out of reach are left at 1. */
function productOf(joints: readonly Float64Array[], everything: Reach, reach = everything) {
  const columns = everything.columns.length;
  const product = new Float64Array(everything.rows.length * columns).fill(1);
  for (const factor of joints)
    for (const i of reach.rows)
      for (const j of reach.columns) {
        const at = i * columns + j;
        product[at] = (product[at] ?? 1) * (factor[at] ?? 1);
      }
  return product;
}

/** The same for what is left when one answer goes: mostly all of them, or all but one, which is divided out. */
function withoutJoint(
  product: Float64Array,
  all: readonly Float64Array[],
  left: readonly Float64Array[],
  everything: Reach,
  reach: Reach,
): Float64Array {
  const gone = all.filter((factor) => !left.includes(factor));
  if (all.length - gone.length !== left.length || gone.length > 1)
    return productOf(left, everything, reach);
  const [factor] = gone;
  if (!factor) return product;
  const columns = everything.columns.length;
  const rest = new Float64Array(product.length);
  for (const i of reach.rows)
    for (const j of reach.columns) {
      const at = i * columns + j;
      rest[at] = (product[at] ?? 0) / (factor[at] ?? 1);
    }
  return rest;
}

/** Sum of the prior odds of every single cause: what "nothing wrong" and "not listed" are measured against. */
function singles(h: Float64Array, q: Float64Array, { hydraulic, quality }: PosteriorInput): number {
  let sum = 0;
  for (let i = 1; i <= hydraulic.causes.length; i++) sum += h[i] ?? 0;
  for (let j = 1; j <= quality.causes.length; j++) sum += q[j] ?? 0;
  return sum;
}

/** @param keep where the weights are written to, when they are wanted */
function marginalsOf(
  { h, q, nothing, unlisted }: Factors,
  product: Float64Array,
  reach: Reach,
  keep: Float64Array | null,
): Marginals & { total: number } {
  const row = new Float64Array(h.length);
  const column = new Float64Array(q.length);
  let total = unlisted;
  for (const i of reach.rows) {
    let sum = 0;
    const own = h[i] ?? 0;
    for (const j of reach.columns) {
      const at = i * q.length + j;
      const weight = at === 0 ? nothing : own * (q[j] ?? 0) * (product[at] ?? 0);
      if (keep) keep[at] = weight;
      sum += weight;
      column[j] = (column[j] ?? 0) + weight;
    }
    row[i] = sum;
    total += sum;
  }
  for (const i of reach.rows) row[i] = (row[i] ?? 0) / total;
  for (const j of reach.columns) column[j] = (column[j] ?? 0) / total;
  return { row, column, nothingWrong: nothing / total, notListed: unlisted / total, total };
}
