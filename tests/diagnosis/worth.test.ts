import { describe, expect, it } from 'vitest';
import { pricingOf } from '../../shared/diagnosis/cost.ts';
import { nextAsk } from '../../shared/diagnosis/next.ts';
import { optionsOf } from '../../shared/diagnosis/options.ts';
import { type Ask, outcomesOf } from '../../shared/diagnosis/predict.ts';
import { expectedCostOf, jobTable } from '../../shared/diagnosis/strategy.ts';
import { leadingCause, worthOf } from '../../shared/diagnosis/worth.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';
import { ruleSet } from './rules.ts';

/**
 * What asking is worth: the expected cost of the best plan now less the mean of that after each answer (Howard 1966), and the
 * mutual information of answer and causes, both summed here over the joint table of worlds and answers.
 */
const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
const read: Answers = [
  ...weak,
  { question: 'readings', value: { taps: 'closed', bar: { G1: 3, G2: 3 } } },
  { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 2.9, G2: 2.5 } } },
];
const cases: [string, unknown, Answers][] = [
  ['two gauges, weak', twoGauges, weak],
  ['two gauges, read', twoGauges, read],
  ...readyMade.slice(0, 4).map(({ id, plant }): [string, unknown, Answers] => [id, plant, weak]),
];
const asks: Ask[] = Object.entries(ruleSet.questions).flatMap(([question, { kind }]): Ask[] =>
  kind === 'readings'
    ? [
        { question, taps: 'closed' },
        { question, taps: { open: 1 } },
      ]
    : [{ question, taps: null }],
);

describe.each(cases)('%s', (_, plant, answers) => {
  const { judgement, worlds } = judged(plant, answers);
  const pricing = pricingOf(ruleSet, 'technician', undefined);
  const table = jobTable(worlds.list, optionsOf(judgement), pricing);
  const prior = worlds.list.map(({ probability }) => probability);
  const costNow = expectedCostOf(table, prior, pricing);
  const leading = leadingCause(judgement);
  const worth = (ask: Ask) =>
    worthOf(ask, judgement, worlds, table, pricing, 'technician', costNow);

  it('the leading cause is the likeliest of those sought', () => {
    const sought = [...judgement.probabilities].filter(
      ([id]) => ruleSet.causes[id] && !judgement.suspects.overdue.has(id),
    );
    const most = Math.max(...sought.map(([, p]) => p));
    expect(judgement.probabilities.get(leading)).toBe(most);
  });

  it('every question is worth what the joint table of worlds and answers says', () => {
    for (const ask of asks) {
      const joint = outcomesOf(ask, judgement, worlds).map((outcome) =>
        prior.map((p, w) => p * (outcome[w] ?? 0)),
      );
      let [saved, information, falls] = [0, 0, 1];
      for (const column of joint) {
        const chance = column.reduce((sum, p) => sum + p, 0);
        if (chance < 1e-4) continue;
        const after = column.map((p) => p / chance);
        saved += chance * (costNow - expectedCostOf(table, after, pricing));
        after.forEach((p, w) => {
          if (p > 1e-9) information += chance * p * Math.log(p / (prior[w] ?? 1));
        });
        if (chance < 0.05) continue;
        const left = after.reduce(
          (sum, p, w) => (worlds.list[w]?.causes.includes(leading) ? sum + p : sum),
          0,
        );
        falls = Math.min(falls, left);
      }
      const ours = worth(ask);
      expect(ours.information, ask.question).toBeCloseTo(information, 6);
      expect(ours.savingMinutes, ask.question).toBeCloseTo(
        saved / pricing.perMinute + ruleSet.head.surenessMinutes * information,
        6,
      );
      expect(ours.leadingFallsTo, ask.question).toBeCloseTo(falls, 9);
      expect(ours.effortMinutes).toBe(ruleSet.questions[ask.question]?.effortMinutes.technician);
      // knowing more never makes one less sure on the average
      expect(information, ask.question).toBeGreaterThanOrEqual(-1e-9);
    }
  });

  it('of the questions after the opening ones the best is asked, or none where each costs more than it saves', () => {
    const opened = judged(plant, [
      ...answers,
      ...ruleSet.head.order
        .filter((id) => !answers.some(({ question }) => question === id))
        .flatMap(
          (question): Answers =>
            ruleSet.questions[question]?.kind === 'readings'
              ? [
                  { question, value: { taps: 'closed', bar: 'unknown' } },
                  { question, value: { taps: { open: 1 }, bar: 'unknown' } },
                ]
              : [
                  {
                    question,
                    value: ruleSet.questions[question]?.combine === 'none' ? [] : 'unknown',
                  },
                ],
        )
        .filter(({ question }) => question !== 'readings' || judgement.model.gauges.length > 0),
    ]);
    const after = jobTable(opened.worlds.list, optionsOf(opened.judgement), pricing);
    const next = nextAsk(opened.judgement, opened.worlds, after, pricing, 'technician');
    const now = expectedCostOf(
      after,
      opened.worlds.list.map(({ probability }) => probability),
      pricing,
    );
    if (next.ask && ruleSet.head.order.includes(next.ask.question)) return;
    const net = (ask: Ask) => {
      const { savingMinutes, effortMinutes } = worthOf(
        ask,
        opened.judgement,
        opened.worlds,
        after,
        pricing,
        'technician',
        now,
      );
      return savingMinutes - effortMinutes;
    };
    if (next.ask) {
      expect(net(next.ask)).toBeGreaterThan(0);
      expect(next.couldSettle).toBeNull();
      const others = asks.filter(
        ({ question, taps }) =>
          taps === null &&
          ruleSet.questions[question]?.when.length === 0 &&
          !opened.judgement.facts.asked.has(question) &&
          !ruleSet.head.order.includes(question),
      );
      for (const other of others) expect(net(other)).toBeLessThanOrEqual(net(next.ask) + 1e-9);
    } else if (next.couldSettle) {
      expect(next.couldSettle.information).toBeGreaterThan(0.1);
      expect(net(next.couldSettle.ask)).toBeLessThanOrEqual(0);
    }
    expect(next.ask ?? next.couldSettle ?? 'nothing tells more').toBeTruthy();
  });
});
