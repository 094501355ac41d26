import type { Facts } from '../case/facts.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { type Answered, answeredOf, questionsIn } from './answered.ts';
import { type ClosedState, closedState } from './closed-state.ts';
import type { Effect } from './effects.ts';
import { houseCurve } from './flow-grid.ts';
import { type GaugeError, levelReadings, offsetsOf } from './gauge-errors.ts';
import type { Model } from './model.ts';
import { singleTests } from './single-tests.ts';
import { type Slip, slipsOf } from './slips.ts';
import { cleanFlow, flowsOf, pumpOf, tapStatesOf } from './tap-inputs.ts';
import { type TapInput, type TapState, tapState } from './tap-state.ts';

/**
 * Likelihood of everything measured under a scenario of up to two effects. Each variant leaves one question out (null:
 * none), so that what an answer weighed can be told exactly.
 */
export interface Measured {
  readonly variants: readonly (string | null)[];
  /** one likelihood per variant; the array is used again by the next call */
  readonly likelihoods: (effects: readonly Effect[]) => Float64Array;
  /** whether an effect can show in anything that was measured */
  readonly shows: (effect: Effect) => boolean;
  readonly unlisted: Float64Array;
  /** the open tap states by key, for the report of segments */
  readonly open: ReadonlyMap<string, TapState>;
}

interface Bundle {
  readonly open: ReadonlyMap<string, TapState>;
  readonly closed: ClosedState | null;
}

/** What is doubted about the gauges, by id: nothing where all are left out. */
interface Doubt {
  /** wrong by a constant: it does not move the mean of the others */
  readonly suspected?: string;
  /** its readings say nothing */
  readonly dropped?: string;
  /** one reading of one gauge was a slip */
  readonly slip?: Slip;
}

export function measuredOf(model: Model, facts: Facts, rules: RuleSet): Measured {
  const answered = answeredOf(facts, rules);
  const variants = [null, ...questionsIn(answered)];
  const readingsVariant = answered.readingsQuestion
    ? variants.indexOf(answered.readingsQuestion)
    : -1;
  const tests = singleTests(model, answered);
  const bundle = (doubt: Doubt) => bundleOf(model, facts, answered, variants, doubt);
  const asRead = bundle({});
  const sound = [
    { bundle: asRead, density: 1 },
    ...slipsOf(model, facts, answered).map((slip) => ({
      bundle: bundle({ slip }),
      density: slip.density,
    })),
  ];
  const withFaulty = faultyBundles(model, facts, answered, bundle);
  const out = new Float64Array(variants.length);
  const part = new Float64Array(variants.length);
  const sides = faultySides(withFaulty, variants.length);

  const fillOpen = ({ open }: Bundle, effects: readonly Effect[], target: Float64Array) => {
    target.fill(1);
    for (const state of open.values()) state.multiply(effects, target);
  };
  const closedChance = ({ closed }: Bundle, effects: readonly Effect[]) =>
    closed ? closed.likelihood(model.sourceWith(effects), effects) : 1;
  const likelihoods = (effects: readonly Effect[]): Float64Array => {
    const faulty = effects.find((effect) => effect.gauge !== null);
    if (faulty?.gauge) {
      const other = effects.find((effect) => effect !== faulty) ?? null;
      const { kept, dropped, erraticDensity, keptOpen, droppedOpen } = sides(
        faulty.gauge,
        other,
        (bundle, target) => fillOpen(bundle, other ? [other] : [], target),
      );
      const ifErratic = erraticDensity * closedChance(dropped, effects);
      const ifOff = kept ? closedChance(kept, effects) : 0;
      for (let v = 0; v < out.length; v++) {
        const read = v !== readingsVariant;
        const erratic = (droppedOpen[v] ?? 0) * (read ? ifErratic : 1);
        out[v] = kept ? 0.5 * erratic + 0.5 * (keptOpen[v] ?? 0) * (read ? ifOff : 1) : erratic;
      }
    } else {
      out.fill(0);
      for (const { bundle: told, density } of sound) {
        fillOpen(told, effects, part);
        const chance = density * closedChance(told, effects);
        for (let v = 0; v < out.length; v++) {
          // Leaving the readings out, all of these are one.
          const share = v === readingsVariant ? Number(told === asRead) : chance;
          out[v] = (out[v] ?? 0) + (part[v] ?? 0) * share;
        }
      }
    }
    if (tests.length > 0) {
      const source = model.sourceWith(effects);
      for (const test of tests) {
        const chance = test.chance(source, effects);
        for (let v = 0; v < out.length; v++)
          if (variants[v] !== test.question) out[v] = (out[v] ?? 1) * chance;
      }
    }
    return out;
  };
  const unlisted = Float64Array.from(variants, (variant) => {
    let chance =
      variant !== null && variant === answered.readingsQuestion
        ? 1
        : (asRead.closed?.unlisted ?? 1);
    for (const state of asRead.open.values()) chance *= state.unlisted(variant);
    for (const test of tests) if (test.question !== variant) chance *= test.unlisted;
    return chance;
  });
  // Pump and vessel behaviour shows only where somebody listened, timed or tested.
  const behaviour =
    tests.length > 0 ||
    answered.running !== null ||
    answered.cycle !== null ||
    asRead.closed !== null;
  const shows = (effect: Effect) =>
    effect.gauge !== null ||
    effect.partLoss !== null ||
    effect.atReducer ||
    (effect.change.reducerPasses === true && asRead.closed !== null) ||
    effect.pipeTimes !== 1 ||
    effect.outletLn !== 0 ||
    effect.change.levelM !== undefined ||
    effect.atPressure ||
    (behaviour && effect.atSource);
  return { variants, likelihoods, shows, unlisted, open: asRead.open };
}

interface FaultyGauge {
  /** the gauge off by a constant that the closed reading told; null where none was taken */
  readonly kept: Bundle | null;
  readonly dropped: Bundle;
  readonly erraticDensity: number;
}

/**
 * A gauge under suspicion is either off by a constant (then still good for differences once its offset is known) or
 * erratic (then its readings say nothing): both, by equal chance.
 */
function faultyBundles(
  model: Model,
  facts: Facts,
  answered: Answered,
  bundle: (doubt: Doubt) => Bundle,
) {
  const known = new Map<string, FaultyGauge>();
  return (id: string): FaultyGauge => {
    const entry = known.get(id);
    if (entry) return entry;
    const rangeBar = model.gauges.find((gauge) => gauge.id === id)?.rangeBar ?? 10;
    const reads = answered.readings.filter(
      ([, r]) => r.taps !== 'closed' && typeof r.bar[id] === 'number',
    ).length;
    const built = {
      kept: facts.offsets ? bundle({ suspected: id }) : null,
      dropped: bundle({ suspected: id, dropped: id }),
      erraticDensity: (0.6 * rangeBar) ** -reads,
    };
    known.set(id, built);
    return built;
  };
}

/**
 * The open states beside a faulty gauge do not depend on how wrong it is: they are kept while only that changes from
 * one call to the next.
 */
function faultySides(withFaulty: (id: string) => FaultyGauge, variants: number) {
  const keptOpen = new Float64Array(variants);
  const droppedOpen = new Float64Array(variants);
  let last: { id: string; other: Effect | null } | null = null;
  return (
    id: string,
    other: Effect | null,
    fill: (bundle: Bundle, target: Float64Array) => void,
  ) => {
    const faulty = withFaulty(id);
    if (last?.id !== id || last.other !== other) {
      fill(faulty.dropped, droppedOpen);
      if (faulty.kept) fill(faulty.kept, keptOpen);
      last = { id, other };
    }
    return { ...faulty, keptOpen, droppedOpen };
  };
}

function bundleOf(
  model: Model,
  facts: Facts,
  answered: Answered,
  variants: readonly (string | null)[],
  { suspected, dropped, slip }: Doubt,
): Bundle {
  const { curves } = model;
  const readIn = (state: string, without?: string) =>
    model.gauges.filter(
      ({ id }) => id !== without && !(slip?.state === state && slip.gauge === id),
    );
  const offsets = offsetsOf(facts, readIn('closed'), curves.datumM, suspected);
  const open = new Map<string, TapState>();
  for (const [key, { taps, readings }] of tapStatesOf(answered)) {
    const house = houseCurve(model.line, curves, taps, model.assumed);
    const level = readings
      ? levelReadings(readings, readIn(key, dropped), offsets, curves.datumM)
      : [];
    const input: TapInput = {
      curves,
      house,
      readings: level,
      commonBar: offsets?.commonBar ?? commonError(level.map((r) => r.gauge)),
      stale: new Set(
        (readings?.staleParts ?? []).map((id) =>
          model.plant.line.findIndex((part) => part.id === id),
        ),
      ),
      sourceWith: model.sourceWith,
      flows: flowsOf(model, answered, key, readings),
      pump: pumpOf(answered, key, readings),
      readingsQuestion: answered.readingsQuestion,
      cleanLpm: cleanFlow(model, house),
    };
    open.set(key, tapState(input, variants));
  }
  const rest = answered.readings.find(([key]) => key === 'closed')?.[1];
  return {
    open,
    closed: rest ? closedState(rest.bar, readIn('closed'), curves, rest.pump ?? null) : null,
  };
}

/** Without a closed reading part of each gauge's offset stays in the level of all. */
const commonError = (read: readonly GaugeError[]) =>
  Math.sqrt(read.reduce((sum, gauge) => sum + gauge.offsetBar ** 2, 0)) /
  Math.max(1, read.length) /
  2;
