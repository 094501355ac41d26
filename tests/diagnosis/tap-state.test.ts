import { describe, expect, it } from 'vitest';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import { flowSeen } from '../../shared/diagnosis/measured.ts';
import { readWeights } from '../../shared/diagnosis/open-state.ts';
import { type Running, runningChance, unlistedRunning } from '../../shared/diagnosis/running.ts';
import { type TapInput, tapState } from '../../shared/diagnosis/tap-state.ts';
import { unreadWeights } from '../../shared/diagnosis/unread-state.ts';
import { along, curvesWith, effect, gauge, house, LPM, part, sourceWith } from './made-line.ts';

/**
 * The likelihood of a tap state is the sum over flows of the flow's weight times what was seen of it and heard at the
 * pump; leaving a question out leaves its own factor out. Here summed plainly, flow by flow.
 */
const curves = curvesWith({ parts: [null, null, part({ loads: true }), null, null] });
const source = sourceWith({ cycling: along((q) => (q < 4 ? 0.6 : 0.1)) });
const weak = sourceWith({ raw: along((q) => 3 - 0.25 * q) });
const heard: Running = { heard: 'steady', motor: null, cycle: null, vacuumBar: null };
const felt: Running = { heard: null, motor: 'on', cycle: null, vacuumBar: null };

const all: TapInput = {
  curves,
  house,
  readings: [
    { gauge: gauge(1), bar: 3.1, ownBar: 0.06 },
    { gauge: gauge(3, { rangeBar: 6 }), bar: 2.4, ownBar: 0.08 },
  ],
  commonBar: 0.05,
  stale: new Set(),
  sourceWith: (effects) => (effects.some((e) => e.atSource) ? weak : source),
  flows: [
    { question: 'bucket', seen: flowSeen(curves, 7, 0.07) },
    { question: 'readings', seen: flowSeen(curves, 6, 0.06) },
  ],
  pump: [
    { question: 'pump-open', running: heard },
    { question: 'readings', running: felt },
  ],
  readingsQuestion: 'readings',
  cleanLpm: 10,
};
const scenarios: [string, Effect[]][] = [
  ['no fault', []],
  ['a restriction', [effect({ at: 2, partLoss: along((q) => 0.05 * q), spread: 0.2 })]],
  ['a weak pump', [effect({ atSource: true, atPressure: true, sourceLoss: along(() => 2) })]],
];

function plainly(given: TapInput, effects: readonly Effect[], without: string | null): number {
  const gauges = given.readings.length > 0 && without !== given.readingsQuestion;
  const flows = given.flows.filter(({ question }) => question !== without);
  const pump = given.pump.filter(({ question }) => question !== without);
  if (!gauges && flows.length === 0 && pump.length === 0) return 1;
  const weights = gauges ? readWeights(given)(effects) : unreadWeights(given)(effects);
  const of = given.sourceWith(effects);
  return [...weights].reduce((sum, weight, j) => {
    const seen = flows.reduce((so, flow) => so * (flow.seen[j] ?? 0), 1);
    const said = pump.reduce(
      (so, { running }) => so * runningChance(running, of, curves, given.cleanLpm, j),
      1,
    );
    return sum + weight * seen * said;
  }, 0);
}

const variants = [null, 'readings', 'bucket', 'pump-open', 'smell'];
describe.each<[string, Partial<TapInput>]>([
  ['gauges, flows and pump', {}],
  ['gauges alone', { flows: [], pump: [] }],
  ['gauges and a bucket', { flows: all.flows.slice(0, 1), pump: [] }],
  ['gauges and what was heard', { flows: [], pump: all.pump.slice(0, 1) }],
  ['a bucket alone', { readings: [], flows: all.flows.slice(0, 1), pump: [] }],
  ['what was heard alone', { readings: [], flows: [], pump: all.pump.slice(0, 1) }],
  ['nothing', { readings: [], flows: [], pump: [] }],
])('a tap state of %s', (_, differs) => {
  const given = { ...all, ...differs };
  const state = tapState(given, variants);

  it.each(scenarios)(
    'under %s multiplies what was there by its likelihood, each question left out in turn',
    (_, effects) => {
      // one flow in a million may be left out of the sum
      for (const before of [1, 0.5]) {
        const out = new Float64Array(variants.length).fill(before);
        state.multiply(effects, out);
        variants.forEach((without, v) => {
          expect((out[v] ?? 0) / before / plainly(given, effects, without)).toBeCloseTo(1, 4);
        });
      }
    },
  );

  it('weighs each flow by all that was read, seen and heard', () => {
    for (const [, effects] of scenarios) {
      const weights = state.flowWeights(effects);
      const base =
        given.readings.length > 0 ? readWeights(given)(effects) : unreadWeights(given)(effects);
      LPM.forEach((_, j) => {
        const seen = given.flows.reduce((so, flow) => so * (flow.seen[j] ?? 0), 1);
        const said = given.pump.reduce(
          (so, { running }) =>
            so * runningChance(running, given.sourceWith(effects), curves, 10, j),
          1,
        );
        expect(weights[j]).toBeCloseTo((base[j] ?? 0) * seen * said, 12);
      });
    }
  });

  it('under something not listed is anything: a flow on the grid, a pressure in the range, a pump heard at will', () => {
    // no water in one case of four, else any flow as likely as any other
    const anyFlow = ([none = 0, ...running]: Float64Array) =>
      0.25 * none + (0.75 * running.reduce((sum, chance) => sum + chance, 0)) / running.length;
    for (const without of variants) {
      const pump = given.pump.filter(({ question }) => question !== without);
      const flows = given.flows.filter(({ question }) => question !== without);
      const read = without === 'readings' ? [] : given.readings;
      const expected =
        pump.reduce((so, { running }) => so * unlistedRunning(running), 1) *
        flows.reduce((so, { seen }) => so * anyFlow(seen), 1) *
        read.reduce((so, { gauge: { rangeBar } }) => so / (0.6 * rangeBar), 1);
      expect(state.unlisted(without)).toBeCloseTo(expected, 12);
    }
  });
});
