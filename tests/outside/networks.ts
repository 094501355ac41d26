import bayes, { type INetwork } from 'bayesjs';
import { type PosteriorInput, posteriorOf } from '../../shared/diagnosis/posterior.ts';
import { blockOf } from '../../shared/diagnosis/sets.ts';
import { observationsOf, type SignContext } from '../../shared/diagnosis/signs.ts';
import type { Question, RuleSet } from '../../shared/ruleset/schema.ts';
import { ruleSet } from '../diagnosis/rules.ts';

const { addNode, infer } = bayes;

export interface Cause {
  readonly id: string;
  readonly prior: number;
}
export interface Finding {
  readonly id: string;
  readonly leak: number;
  readonly strengths: Readonly<Record<string, number>>;
  readonly seen: boolean;
}

/** A rule set of its own head: the empty set has the weight that independence gives it, one against the causes' odds. */
export const rulesFor = (singles: number): RuleSet =>
  ({
    head: {
      ...ruleSet.head,
      sameSaying: [],
      asking: { nothingWrong: 1 / singles, notListed: 1e-300 },
    },
  }) as unknown as RuleSet;

/** Frequencies by word are the rule set's; a network wants its own figures, so each gets a word of its own. */
export function ours(causes: readonly Cause[], findings: readonly Finding[]): Map<string, number> {
  const hydraulic = blockOf(causes.map((c) => c.id));
  const quality = blockOf([]);
  const prior = new Float64Array(hydraulic.sets.length);
  hydraulic.sets.forEach((set, i) => {
    prior[i] = set.reduce((product, c) => product * odds(causes[c]?.prior ?? 0), 1);
  });
  const singles = causes.reduce((sum, { prior: p }) => sum + odds(p), 0);
  const rules = rulesFor(singles);
  const observations = findings.flatMap((finding) => {
    const frequencies: Record<string, number> = { leak: finding.leak };
    for (const [cause, strength] of Object.entries(finding.strengths))
      frequencies[cause] = strength;
    const question = {
      kind: 'list',
      combine: 'any',
      answers: [finding.id],
      background: { [finding.id]: 'leak' },
      table: Object.fromEntries(
        Object.keys(finding.strengths).map((cause) => [cause, { [finding.id]: cause }]),
      ),
    } as unknown as Question;
    const context = {
      rules: {
        ...rules,
        head: { ...rules.head, frequencies },
        questions: { [finding.id]: question },
      } as unknown as RuleSet,
      hydraulic,
      quality,
      overdue: new Map(),
      replaced: () => false,
    } satisfies SignContext;
    return observationsOf(finding.id, finding.seen ? [finding.id] : [], context);
  });
  const input: PosteriorInput = {
    rules,
    hydraulic,
    quality,
    hydraulicPrior: prior,
    qualityPrior: new Float64Array([1]),
    evidence: { weight: prior.map((_, i) => (i === 0 ? 1 : (prior[i] ?? 0))), unlisted: 1 },
    evidenceWithout: new Map(),
    observations,
    solved: new Map(),
  };
  const { row } = posteriorOf(input);
  return new Map(
    causes.map(({ id }, c) => {
      const sum = hydraulic.sets.reduce(
        (total, set, i) => (set.includes(c) ? total + (row[i] ?? 0) : total),
        0,
      );
      return [id, sum];
    }),
  );
}

export const odds = (p: number) => p / (1 - p);

/** The same in the library: yes/no nodes, a noisy-or table per finding. */
export function theirs(
  causes: readonly Cause[],
  findings: readonly Finding[],
): Map<string, number> {
  let network: INetwork = {};
  for (const { id, prior } of causes) {
    network = addNode(network, {
      id,
      states: ['T', 'F'],
      parents: [],
      cpt: { T: prior, F: 1 - prior },
    });
  }
  for (const { id, leak, strengths } of findings) {
    const parents = Object.keys(strengths);
    const cpt = Array.from({ length: 2 ** parents.length }, (_, bits) => {
      const when = Object.fromEntries(
        parents.map((parent, k) => [parent, bits & (1 << k) ? 'T' : 'F']),
      );
      const silent = parents.reduce(
        (p, parent) => (when[parent] === 'T' ? p * (1 - (strengths[parent] ?? 0)) : p),
        1 - leak,
      );
      return { when, then: { T: 1 - silent, F: silent } };
    });
    network = addNode(network, { id, states: ['T', 'F'], parents, cpt });
  }
  const given = Object.fromEntries(findings.map(({ id, seen }) => [id, seen ? 'T' : 'F']));
  return new Map(causes.map(({ id }) => [id, infer(network, { [id]: 'T' }, given)]));
}
