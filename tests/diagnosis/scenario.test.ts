import { describe, expect, it } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import type { Taps } from '../../shared/case/taps.ts';
import { closedState } from '../../shared/diagnosis/closed-state.ts';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import { candidatesOf } from '../../shared/diagnosis/evidence.ts';
import { houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { levelReadings, offsetsOf } from '../../shared/diagnosis/gauge-errors.ts';
import { flowSeen } from '../../shared/diagnosis/measured.ts';
import { modelOf } from '../../shared/diagnosis/model.ts';
import { runningChance } from '../../shared/diagnosis/running.ts';
import { measuredOf } from '../../shared/diagnosis/scenario.ts';
import { blockOf } from '../../shared/diagnosis/sets.ts';
import { suspectsOf } from '../../shared/diagnosis/suspects.ts';
import { tapState } from '../../shared/diagnosis/tap-state.ts';
import { flowChances } from '../../shared/diagnosis/unread-state.ts';
import type { Answers } from './judged.ts';
import { DAY, ruleSet } from './rules.ts';

/** Everything measured together: what it is without one question is what a case without that answer has. */
const plant = {
  name: 'three gauges',
  line: [
    { id: 'tank', kind: 'tank' },
    { id: 'suction', kind: 'suction', lengthM: 3 },
    { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 } },
    { id: 'vessel', kind: 'vessel' },
    { id: 'G1', kind: 'gauge' },
    { id: 'sed', kind: 'filter', medium: 'sediment' },
    { id: 'G2', kind: 'gauge', rangeBar: 6 },
    { id: 'carbon', kind: 'filter', medium: 'carbon' },
    { id: 'G3', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
};
type Bar = number | 'unknown';
const read = (taps: Taps, [G1, G2, G3]: [Bar, Bar, Bar], more: object = {}) => ({
  question: 'readings',
  value: { taps, bar: { G1, G2, G3 }, ...more },
});
const shut = read('closed', [3, 3.05, 2.95], { pump: 'off' });
const open = read({ open: 1 }, [2.7, 2.2, 2.1], { flowLpm: 9, pump: 'on' });
const flow = { question: 'flow', value: { litres: 10, seconds: 70 } };
const others = [
  { question: 'pump-open', value: 'cycles-slow' },
  { question: 'pump-closed', value: 'short-bursts' },
  { question: 'tank-level', value: 'half' },
  { question: 'shut-off', value: { bar: 4, gauge: 'G2' } },
  { question: 'pressure-hold', value: { lostBar: 0.4, minutes: 10 } },
  { question: 'pressure-hold-isolated', value: { lostBar: 0.02, minutes: 10 } },
  { question: 'precharge', value: { bar: 1.6 } },
  { question: 'cycle-times', value: { onS: 30, offS: 60, taps: 'open' } },
  { question: 'suction-vacuum', value: { bar: -0.2 } },
  { question: 'empty-housing', value: { removed: ['sed'], result: 'better' } },
];

function made(answers: Answers) {
  const facts = factsOf(plant, answers, ruleSet, { system: DAY });
  const suspects = suspectsOf(facts, ruleSet).hydraulic;
  const block = blockOf([...new Set(suspects.map(({ cause }) => cause))]);
  const model = modelOf(facts, ruleSet);
  const candidates = candidatesOf(suspects, block, model);
  return { facts, model, candidates, measured: measuredOf(model, facts, ruleSet) };
}
type Made = ReturnType<typeof made>;
/** One severity of each suspect, and some pairs. */
const scenariosOf = ({ candidates }: Made): Effect[][] => {
  const ones = candidates.flatMap(({ rough }) => rough.slice(0, 1));
  const faulty = ones.find(({ gauge }) => gauge !== null);
  const pairs = ones.slice(1, 9).map((effect, i) => [ones[i] ?? effect, effect]);
  const withGauge = ones.slice(0, 5).flatMap((e) =>
    faulty && faulty !== e
      ? [
          [faulty, e],
          [e, faulty],
        ]
      : [],
  );
  return [[], ...ones.map((effect) => [effect]), ...pairs, ...withGauge];
};
const without = (answers: Answers, question: string | null) =>
  answers.filter((answer) => answer.question !== question);

describe.each<[string, Answers]>([
  ['everything', [shut, open, flow, ...others]],
  ['gauges with water running alone', [open, read({ open: 2 }, [2.5, 1.9, 1.8])]],
  ['gauges with taps shut alone', [shut]],
  ['no gauge', [flow, ...others]],
  ['a flow at two taps', [shut, { ...flow, value: { ...flow.value, taps: { open: 2 } } }]],
  [
    'a cycle timed with taps shut',
    [{ question: 'cycle-times', value: { onS: 30, offS: 600, taps: 'closed' } }],
  ],
  ['nothing', []],
])('measured: %s', (_, answers) => {
  const whole = made(answers);
  const { variants } = whole.measured;

  it('without an answer it is what it is in a case without that answer', () => {
    const asked = new Set(answers.map(({ question }) => question));
    expect(new Set(variants)).toEqual(new Set([null, ...asked]));
    expect(variants[0]).toBeNull();
    variants.forEach((question, v) => {
      const less = made(without(answers, question));
      const [ours, theirs] = [scenariosOf(whole), scenariosOf(less)];
      ours.forEach((effects, i) => {
        const expected = less.measured.likelihoods(theirs[i] ?? [])[0] ?? Number.NaN;
        const is = whole.measured.likelihoods(effects)[v] ?? Number.NaN;
        expect(is / expected, `${question} ${i}`).toBeCloseTo(1, 4);
      });
      expect((whole.measured.unlisted[v] ?? 0) / (less.measured.unlisted[0] ?? 0)).toBeCloseTo(
        1,
        9,
      );
    });
  });

  it('what shows in nothing changes nothing', () => {
    const none = [...whole.measured.likelihoods([])];
    let silent = 0;
    for (const { effects } of whole.candidates)
      for (const effect of effects) {
        if (whole.measured.shows(effect)) continue;
        silent++;
        expect([...whole.measured.likelihoods([effect])]).toEqual(
          none.map((chance) => expect.closeTo(chance, 12)),
        );
      }
    // with all taps shut, or the pump heard, whatever changes the pump or its vessel shows
    const behaviour = answers.some(
      ({ question }) => question !== 'readings' && question !== 'flow',
    );
    if (!behaviour && !answers.includes(shut)) expect(silent).toBeGreaterThan(0);
  });
});

describe('gauges of which one is at fault', () => {
  const two = read({ open: 2 }, [2.5, 1.9, 1.8]);
  const faultIn = ({ candidates }: Made, id: string): Effect => {
    const effect = candidates.flatMap(({ rough }) => rough).find(({ gauge }) => gauge === id);
    if (!effect) throw new Error(`no fault of ${id}`);
    return effect;
  };
  const dropped = (answers: Answers) =>
    answers.map(({ question, value }) => ({
      question,
      value: { ...(value as object), bar: { ...(value as { bar: object }).bar, G2: 'unknown' } },
    }));

  it('without a closed reading its readings say nothing but that they lie in its range', () => {
    const whole = made([open, two]);
    const less = made(dropped([open, two]));
    for (const at of [0, 1, 2, 3]) {
      const [beside, same] = [whole, less].map(({ candidates }) => candidates[at]?.rough[0]);
      if (!beside || !same || beside.gauge) continue;
      for (const effects of [
        [faultIn(whole, 'G2'), beside],
        [beside, faultIn(whole, 'G2')],
      ]) {
        const expected = (less.measured.likelihoods([same])[0] ?? 0) / (0.6 * 6) ** 2;
        expect((whole.measured.likelihoods(effects)[0] ?? 0) / expected).toBeCloseTo(1, 9);
      }
    }
  });

  /** The open state by its pieces, the closed readings' offsets taken out. */
  function openBy({ facts, model }: Made, drop: string | null, effects: readonly Effect[]) {
    const { curves, gauges } = model;
    const readings = facts.readings.get('open 1');
    if (!readings) throw new Error('no reading');
    const offsets = offsetsOf(facts, gauges, curves.datumM, 'G2');
    const house = houseCurve(model.line, curves, { open: 1 }, model.assumed);
    const clean = flowChances({ curves, house }, model.sourceWith([]), [], 1);
    const state = tapState(
      {
        ...{ curves, house, sourceWith: model.sourceWith, stale: new Set() },
        readings: levelReadings(
          readings,
          gauges.filter(({ id }) => id !== drop),
          offsets,
          curves.datumM,
        ),
        commonBar: offsets?.commonBar ?? Number.NaN,
        flows: [{ question: 'readings', seen: flowSeen(curves, 9, 0.06) }],
        pump: [
          {
            question: 'readings',
            running: { heard: null, motor: 'on', cycle: null, vacuumBar: null },
          },
        ],
        readingsQuestion: 'readings',
        cleanLpm: Math.max(
          1,
          clean.reduce((sum, chance, j) => sum + chance * (curves.lpm[j] ?? 0), 0),
        ),
      },
      [null],
    );
    const out = Float64Array.of(1);
    state.multiply(effects, out);
    return out[0] ?? 0;
  }

  it('with one it is as likely off by what that told as erratic', () => {
    const whole = made([shut, open]);
    const fault = faultIn(whole, 'G2');
    const { facts, model } = whole;
    const rest = facts.readings.get('closed');
    if (!rest) throw new Error('no reading');
    const closed = closedState(rest.bar, model.gauges, model.curves, 'off');
    const others = whole.candidates
      .flatMap(({ rough }) => rough)
      .filter(({ gauge }) => gauge === null);
    for (const beside of [[], ...others.slice(0, 6).map((effect) => [effect])]) {
      const effects = [fault, ...beside];
      const atRest = closed.likelihood(model.sourceWith(effects), effects);
      const expected =
        atRest *
        (0.5 * openBy(whole, null, beside) + (0.5 * openBy(whole, 'G2', beside)) / (0.6 * 6));
      expect((whole.measured.likelihoods(effects)[0] ?? 0) / expected).toBeCloseTo(1, 6);
    }
  });
});

describe('a reading that may have been a slip', () => {
  const cases: [string, Answers, Answers, number][] = [
    [
      'at rest, one far off the rest',
      [read('closed', [3, 3.02, 4.6]), open],
      [read('closed', [3, 3.02, 'unknown']), open],
      1 / 60 / 10,
    ],
  ];
  it.each(cases)(
    '%s, is one with its small chance, and then says nothing',
    (_, as, left, chance) => {
      const [whole, less] = [made(as), made(left)];
      const scenarios = scenariosOf(whole).map((effects, i) => [
        effects,
        scenariosOf(less)[i] ?? [],
      ]);
      const plain = (m: Made, effects: readonly Effect[]) =>
        m.measured.likelihoods(effects)[0] ?? 0;
      for (const [effects = [], same = []] of scenarios) {
        if (effects.some(({ gauge }) => gauge)) continue;
        // as read it hardly could be; so nearly all of it is the slip
        expect(plain(whole, effects) / (chance * plain(less, same))).toBeGreaterThan(0.999);
      }
    },
  );
});

it('the pump is heard, timed and sucked at with one tap open', () => {
  const heard = others.filter(({ question }) =>
    /pump-open|cycle-times|suction-vacuum/.test(question),
  );
  const { model, measured } = made(heard);
  const { curves } = model;
  const house = houseCurve(model.line, curves, { open: 1 }, model.assumed);
  const chances = flowChances({ curves, house }, model.sourceWith([]), [], 1);
  const cleanLpm = Math.max(
    1,
    chances.reduce((sum, c, j) => sum + c * (curves.lpm[j] ?? 0), 0),
  );
  const running = {
    ...{ heard: 'cycles-slow', motor: null, vacuumBar: -0.2 },
    cycle: { onS: 30, offS: 60, taps: 'open' as const },
  };
  const state = measured.open.get('open 1');
  const bare = made([flow]).measured.open.get('open 1');
  const seen = flowSeen(curves, (60 * 10) / 70, 0.07);
  const weights = state?.flowWeights([]) ?? [];
  bare?.flowWeights([]).forEach((weight, j) => {
    const said = runningChance(running, model.sourceWith([]), curves, cleanLpm, j);
    expect(weights[j]).toBeCloseTo((weight / (seen[j] ?? 1)) * said, 9);
  });
  expect([...measured.open.keys()]).toEqual(['open 1']);
});
