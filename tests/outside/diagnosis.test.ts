import { describe, expect, it } from 'vitest';
import { posteriorOf } from '../../shared/diagnosis/posterior.ts';
import { blockOf, setIndex } from '../../shared/diagnosis/sets.ts';
import { observationsOf } from '../../shared/diagnosis/signs.ts';
import type { Question, RuleSet } from '../../shared/ruleset/schema.ts';
import { ruleSet } from '../diagnosis/rules.ts';
import { type Finding, odds, ours, rulesFor, theirs } from './networks.ts';

/**
 * Our posterior against a general-purpose Bayesian network library (bayesjs, junction tree) and against published
 * figures, on networks that both can hold: independent causes, noisy-or findings, at most two causes a block.
 */

describe('the posterior against a general-purpose Bayesian network library', () => {
  // With two causes "at most two together" leaves nothing out, so both hold the same network.
  const causes = [
    { id: 'pump', prior: 0.03 },
    { id: 'filter', prior: 0.12 },
  ];
  const cases: readonly (readonly [string, readonly Finding[]])[] = [
    [
      'one positive finding',
      [{ id: 'weak', leak: 0.05, strengths: { pump: 0.7, filter: 0.8 }, seen: true }],
    ],
    [
      'one negative finding',
      [{ id: 'weak', leak: 0.05, strengths: { pump: 0.7, filter: 0.8 }, seen: false }],
    ],
    [
      'positive and negative findings together',
      [
        { id: 'weak', leak: 0.05, strengths: { pump: 0.7, filter: 0.8 }, seen: true },
        { id: 'noise', leak: 0.02, strengths: { pump: 0.5 }, seen: false },
        { id: 'gauge', leak: 0.01, strengths: { filter: 0.9 }, seen: true },
      ],
    ],
  ];
  it.each(cases)('agrees to 1e-9 on %s', (_, findings) => {
    const library = theirs(causes, findings);
    for (const [id, probability] of ours(causes, findings))
      expect(probability).toBeCloseTo(library.get(id) ?? -1, 9);
  });

  it('differs by no more than the sets of three that it leaves out, on twelve causes', () => {
    const many = Array.from({ length: 12 }, (_, i) => ({ id: `c${i}`, prior: 0.01 + 0.002 * i }));
    const findings = [
      { id: 'f1', leak: 0.03, strengths: { c0: 0.8, c3: 0.6, c7: 0.4 }, seen: true },
      { id: 'f2', leak: 0.02, strengths: { c3: 0.7, c5: 0.5, c11: 0.9 }, seen: true },
      { id: 'f3', leak: 0.05, strengths: { c0: 0.6, c5: 0.6, c9: 0.6 }, seen: false },
    ];
    const library = theirs(many, findings);
    // Three or more together have about 1 % of the library's probability here.
    for (const [id, probability] of ours(many, findings)) {
      expect(Math.abs(probability - (library.get(id) ?? -1))).toBeLessThan(0.015);
    }
  });
});

describe('the posterior against published figures', () => {
  it('gives 0.416008 for two causes, one positive finding (leaky noisy-or closed form 1 − (1−l)Π(1−p·q))', () => {
    const causes = [
      { id: 'd1', prior: 0.1 },
      { id: 'd2', prior: 0.2 },
    ];
    const found = ours(causes, [
      { id: 'f', leak: 0.01, strengths: { d1: 0.8, d2: 0.6 }, seen: true },
    ]);
    expect(found.get('d1')).toBeCloseTo(0.416008, 6);
  });

  // Russell & Norvig, Artificial Intelligence: A Modern Approach: burglary alarm, P(Burglary | John, Mary) = 0.284172.
  // The alarm is summed out of the tables by hand; burglary and earthquake are our two causes.
  it('gives 0.284172 for the burglary alarm', () => {
    const alarm = { TT: 0.95, TF: 0.94, FT: 0.29, FF: 0.001 };
    const both = (a: number) => a * 0.9 * 0.7 + (1 - a) * 0.05 * 0.01;
    const causes = [
      { id: 'burglary', prior: 0.001 },
      { id: 'earthquake', prior: 0.002 },
    ];
    const hydraulic = blockOf(causes.map((c) => c.id));
    const prior = Float64Array.from(hydraulic.sets, (set) =>
      set.reduce((p, c) => p * odds(causes[c]?.prior ?? 0), 1),
    );
    const likelihood = new Float64Array(hydraulic.sets.length);
    likelihood[0] = both(alarm.FF);
    likelihood[setIndex(hydraulic, 0)] = both(alarm.TF);
    likelihood[setIndex(hydraulic, 1)] = both(alarm.FT);
    likelihood[setIndex(hydraulic, 0, 1)] = both(alarm.TT);
    const singles = odds(0.001) + odds(0.002);
    const rules = rulesFor(singles);
    const { row } = posteriorOf({
      rules,
      hydraulic,
      quality: blockOf([]),
      hydraulicPrior: prior,
      qualityPrior: new Float64Array([1]),
      evidence: { weight: prior, unlisted: 1 },
      evidenceWithout: new Map(),
      observations: [
        {
          question: 'calls',
          answer: 'both',
          h: likelihood,
          q: null,
          joint: null,
          nothing: both(alarm.FF),
          unlisted: 0,
        },
      ],
      solved: new Map(),
    });
    const burglary = (row[setIndex(hydraulic, 0)] ?? 0) + (row[setIndex(hydraulic, 0, 1)] ?? 0);
    expect(burglary).toBeCloseTo(0.28417183536, 9);
  });

  // The same book's noisy-or table: inhibitions cold 0.6, flu 0.2, malaria 0.1.
  it.each([
    [['cold'], 0.4],
    [['flu'], 0.8],
    [['malaria'], 0.9],
    [['cold', 'flu'], 0.88],
    [['cold', 'malaria'], 0.94],
    [['flu', 'malaria'], 0.98],
  ])('fever given %s is %d by noisy-or', (present, expected) => {
    const strengths = { cold: 0.4, flu: 0.8, malaria: 0.9 };
    const block = blockOf(Object.keys(strengths));
    const question = {
      kind: 'list',
      combine: 'any',
      answers: ['fever'],
      background: { fever: 'leak' },
      table: Object.fromEntries(Object.keys(strengths).map((cause) => [cause, { fever: cause }])),
    } as unknown as Question;
    const rules = {
      head: { ...ruleSet.head, frequencies: { ...strengths, leak: 0 } },
      questions: { fever: question },
    } as unknown as RuleSet;
    const [fever] = observationsOf('fever', ['fever'], {
      rules,
      hydraulic: block,
      quality: blockOf([]),
      overdue: new Map(),
      replaced: () => false,
    });
    const [a, b] = present.map((cause) => block.causes.indexOf(cause));
    expect(fever?.h?.[setIndex(block, a ?? 0, b ?? a ?? 0)]).toBeCloseTo(expected, 12);
  });
});
