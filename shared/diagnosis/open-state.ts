import type { Effect } from './effects.ts';
import { runsAbove } from './exceeds.ts';
import type { Curves, HouseCurve } from './flow-grid.ts';
import type { LevelReading } from './gauge-errors.ts';
import { below, density } from './normal.ts';
import { heldBy } from './reducers.ts';
import { loadings, reducersBetween } from './segment-loss.ts';
import { pressureDensity, type Source } from './source.ts';

/**
 * One tap state with water running and at least one gauge read. Given the flow the segments between read gauges do not
 * depend on each other, so each has a factor per flow of the grid; a scenario's weight at a flow is the product over
 * segments. Segment 0 is source → first gauge, the last is last gauge → taps.
 */
export interface OpenInput {
  readonly curves: Curves;
  readonly house: HouseCurve;
  /** read gauges in order along the line, offsets out */
  readonly readings: readonly LevelReading[];
  /** standard deviation of the error that all gauges share */
  readonly commonBar: number;
  /** indexes of parts worked on since: their segments say nothing any more */
  readonly stale: ReadonlySet<number>;
  readonly sourceWith: (effects: readonly Effect[]) => Source;
}

/** Weight of each flow of the grid under one or two effects, or none. The array is used again by the next call. */
export type FlowWeights = (effects: readonly Effect[]) => Float64Array;

/**
 * Slips of reading, by what they spoil (common practice): one drop in a hundred, two gauges and hands not used to them
 * (for one analog dial and a trained reader Swain and Guttmann, NUREG/CR-1278, 1983, have three in a thousand; from
 * memory); the level of all gauges at once far less often; the tap is not the one, or not as open, as was said in one
 * case of forty.
 */
const DROP_SLIP = 1 / 100;
/**
 * How far a slip goes (common practice): nine in ten take a mark for its neighbour, a twentieth of the dial or so; one in
 * ten is of anything (another gauge, another unit, another moment) and comes out anywhere on the dial.
 */
const NEAR_SHARE = 0.9;
const NEAR_OF_RANGE = 1 / 20;
const LEVEL_SLIP = 1 / 400;
const TAP_SLIP = 1 / 40;
/** Three-point Gauss–Hermite rule for a normal error. */
const NODES = [
  { z: -Math.sqrt(3), w: 1 / 6 },
  { z: 0, w: 2 / 3 },
  { z: Math.sqrt(3), w: 1 / 6 },
] as const;

export function readWeights(input: OpenInput): FlowWeights {
  const { curves, readings } = input;
  const flows = curves.lpm.length;
  const last = readings.length;
  const segmentOf = (at: number) => readings.filter((reading) => reading.gauge.at < at).length;
  const build = (segment: number, effects: readonly Effect[]) => {
    if (staleSegment(input, segment)) return new Float64Array(flows).fill(1);
    if (segment === 0) return sourceFactor(input, effects);
    return segment === last ? endFactor(input, effects) : middleFactor(input, segment, effects);
  };
  const base = Array.from({ length: last + 1 }, (_, segment) => build(segment, []));
  const cache: ({ segment: number; factor: Float64Array } | null)[] = [];
  const single = (effect: Effect) => {
    const known = cache[effect.id];
    if (known !== undefined) return known;
    const segment = segmentTouched(effect, segmentOf, last);
    const entry = segment === null ? null : { segment, factor: build(segment, [effect]) };
    cache[effect.id] = entry;
    return entry;
  };
  const rest = restFactors(base);
  const out = new Float64Array(flows);
  return (effects) => {
    const [first, second] = effects;
    const one = first ? single(first) : null;
    const two = second ? single(second) : null;
    const a = one ?? two;
    const b = one ? two : null;
    if (!a) return rest(-1, -1);
    if (!b) return times(out, rest(a.segment, -1), a.factor);
    if (a.segment === b.segment) {
      return times(out, rest(a.segment, -1), build(a.segment, effects));
    }
    return times(out, rest(a.segment, b.segment), a.factor, b.factor);
  };
}

function times(
  out: Float64Array,
  rest: Float64Array,
  a: Float64Array,
  b: Float64Array | null = null,
): Float64Array {
  for (let j = 0; j < rest.length; j++) {
    out[j] = (rest[j] ?? 0) * (a[j] ?? 0) * (b ? (b[j] ?? 0) : 1);
  }
  return out;
}

/** The product of all clean segments but two (-1: none left out). */
function restFactors(base: readonly Float64Array[]) {
  const cache = new Map<number, Float64Array>();
  return (a: number, b: number): Float64Array => {
    const key = (a + 1) * 1000 + b + 1;
    const known = cache.get(key);
    if (known) return known;
    const product = new Float64Array(base[0]?.length ?? 0).fill(1);
    base.forEach((factor, segment) => {
      if (segment !== a && segment !== b) times(product, product, factor);
    });
    cache.set(key, product);
    return product;
  };
}

/** The segment whose factor an effect changes; null when this state cannot show it. */
function segmentTouched(
  effect: Effect,
  segmentOf: (at: number) => number,
  last: number,
): number | null {
  if (effect.partLoss || effect.atReducer) return segmentOf(effect.at);
  if (effect.pipeTimes !== 1 || effect.outletLn !== 0) return last;
  return effect.atPressure ? 0 : null;
}

function staleSegment({ readings, stale, curves }: OpenInput, segment: number): boolean {
  const from = segment === 0 ? -1 : (readings[segment - 1]?.gauge.at ?? -1);
  const to = readings[segment]?.gauge.at ?? curves.parts.length;
  for (const at of stale) if (at > from && at < to) return true;
  return false;
}

function sourceFactor(input: OpenInput, effects: readonly Effect[]): Float64Array {
  const { curves, readings, commonBar } = input;
  const first = readings[0];
  const source = input.sourceWith(effects);
  const out = new Float64Array(curves.lpm.length);
  if (!first) return out.fill(1);
  const readVariance = first.ownBar ** 2 + commonBar ** 2;
  const reducer = reducersBetween(curves, -1, first.gauge.at).at(-1);
  const set = reducer && heldBy(reducer, effects);
  // from the reducer, where there is one, to the gauge: what is held there is not what the pump gives
  const [behind] = reducer ? loadings(curves, reducer.at, first.gauge.at, effects, null) : [];
  for (const { loss, chance } of loadings(curves, -1, first.gauge.at, effects, null)) {
    for (let j = 0; j < out.length; j++) {
      const lost = loss.mean[j] ?? 0;
      const outletBar = first.bar + lost;
      const lossSd = loss.sd[j] ?? 0;
      const sd = Math.sqrt(readVariance + lossSd * lossSd);
      let read = pressureDensity(source, j, outletBar, sd);
      if (set && behind) {
        const after = behind.loss.mean[j] ?? 0;
        const bar = first.bar + after;
        const within = Math.sqrt(set.sd ** 2 + readVariance + (behind.loss.sd[j] ?? 0) ** 2);
        read =
          read * below((set.bar - bar) / set.sd) +
          density(bar, set.bar, within) * runsAbove(source, j, set.bar + lost - after);
      }
      out[j] = (out[j] ?? 0) + chance * read;
    }
  }
  return withSlip(out, LEVEL_SLIP, 1 / first.gauge.rangeBar);
}

/** Mixes into each flow's chance that of a slip, which may come out at any value. */
function withSlip(out: Float64Array, slip: number, anywhere: number): Float64Array {
  for (let j = 0; j < out.length; j++) out[j] = (1 - slip) * (out[j] ?? 0) + slip * anywhere;
  return out;
}

function middleFactor(input: OpenInput, segment: number, effects: readonly Effect[]): Float64Array {
  const { readings, curves } = input;
  const from = readings[segment - 1];
  const to = readings[segment];
  const out = new Float64Array(curves.lpm.length);
  if (!from || !to) return out.fill(1);
  const drop = from.bar - to.bar;
  const { rangeBar } = to.gauge;
  const readVariance = from.ownBar ** 2 + to.ownBar ** 2;
  const nearVariance = readVariance + (NEAR_OF_RANGE * rangeBar) ** 2;
  const near = DROP_SLIP * NEAR_SHARE;
  const anywhere = (DROP_SLIP * (1 - NEAR_SHARE)) / rangeBar;
  for (const { loss, chance } of loadings(curves, from.gauge.at, to.gauge.at, effects, from.bar)) {
    for (let j = 0; j < out.length; j++) {
      const mean = loss.mean[j] ?? 0;
      const variance = (loss.sd[j] ?? 0) ** 2;
      const read = density(drop, mean, Math.sqrt(readVariance + variance));
      const misread = density(drop, mean, Math.sqrt(nearVariance + variance));
      const told = (1 - DROP_SLIP) * read + near * misread + anywhere;
      out[j] = (out[j] ?? 0) + chance * told;
    }
  }
  return out;
}

/**
 * From the last gauge to the taps: chance that the outlets are of the size that passes flow j at the pressure left for
 * them. Flow zero stands for "not enough pressure to reach the taps".
 */
function endFactor(input: OpenInput, effects: readonly Effect[]): Float64Array {
  const { readings, curves, house, commonBar } = input;
  const lastReading = readings.at(-1);
  const out = new Float64Array(curves.lpm.length);
  if (!lastReading) return out.fill(1);
  const upstream = upstreamSlope(input);
  const outletLn = effects.reduce((sum, effect) => sum + effect.outletLn, 0);
  const sizeSd = Math.hypot(house.sizeSd, outletLn === 0 ? 0 : 0.3);
  const pipeTimes = effects.reduce((product, effect) => product * effect.pipeTimes, 1);
  const half = curves.step / 2;
  const readVariance = lastReading.ownBar ** 2 + commonBar ** 2;
  for (const { loss, chance } of loadings(
    curves,
    lastReading.gauge.at,
    curves.parts.length,
    effects,
    lastReading.bar,
  )) {
    for (let j = 0; j < out.length; j++) {
      const pipe = (house.pipeBar[j] ?? 0) * pipeTimes;
      const running = (loss.mean[j] ?? 0) + pipe;
      const left = lastReading.bar - running - house.staticBar;
      const slope = (running - (loss.held?.[j] ?? 0)) * 1.4;
      const sd = Math.sqrt(readVariance + (loss.sd[j] ?? 0) ** 2 + (house.pipeSpread * pipe) ** 2);
      out[j] = (out[j] ?? 0) + chance * (j === 0 ? below(-left / sd) : passing(j, left, sd, slope));
    }
  }
  return withSlip(out, TAP_SLIP, 1 / out.length);

  function passing(j: number, left: number, sd: number, slope: number): number {
    const tap = (house.tapBar[j] ?? 0) * Math.exp(-2 * outletLn);
    const steepness = (bar: number) => 1 + (upstream[j] ?? 0) / (2 * bar) / (1 + slope / (2 * bar));
    // Averaged over the narrower of the two: what is left for the outlets, or what they need for so little water.
    const overSize = sd > 2 * sizeSd * tap;
    let sum = 0;
    for (const { z, w } of NODES) {
      const bar = overSize ? tap * Math.exp(-2 * z * sizeSd) : left + z * sd;
      // At an edge of this flow's bin: what is needed against what is left, or ln of the outlets' size against the plant's.
      const edge = (side: number) =>
        overSize
          ? (bar * Math.exp(2 * side) + slope * side - left) / sd
          : (0.5 * Math.log(tap / Math.max(1e-5, bar - slope * side)) + side) / sizeSd;
      if (bar > 0) sum += w * (below(edge(half)) - below(edge(-half))) * steepness(bar);
    }
    return sum;
  }
}

/**
 * How fast the pressure at the last gauge falls per unit of ln(flow), bar: steeper lines pin the flow down more
 * sharply, so a given outlet size is worth more flow there (change of variable from outlet size to flow).
 */
function upstreamSlope({ curves, readings, sourceWith }: OpenInput): Float64Array {
  // behind a reducer nothing before it moves the pressure
  const zone = readings.at(-1)?.gauge.zone ?? 0;
  const first = readings.find(({ gauge }) => gauge.zone === zone)?.bar ?? 0;
  const last = readings.at(-1)?.bar ?? 0;
  const drops = 1.2 * Math.max(0, first - last);
  if (zone > 0) return new Float64Array(curves.lpm.length).fill(drops);
  const clean = sourceWith([]);
  return curves.lpm.map((_, j) => {
    const before = clean.raw[Math.max(0, j - 1)] ?? 0;
    const slope = j === 0 ? 0 : Math.max(0, before - (clean.raw[j] ?? 0)) / curves.step;
    return drops + (1 - (clean.cycling[j] ?? 0)) * slope;
  });
}
