import type { Effect } from './effects.ts';
import type { Curves } from './flow-grid.ts';
import type { FlowWeights, OpenInput } from './open-state.ts';
import { heldBy } from './reducers.ts';
import { LOADING, MEAN_LOADING } from './segment-loss.ts';
import type { Source } from './source.ts';

/**
 * One tap state with water running and no gauge read: the line is solved for its flow under each scenario on the
 * curves' grid; tap size, pump and cartridges spread it.
 */
export function unreadWeights(
  input: Pick<OpenInput, 'curves' | 'house' | 'sourceWith'>,
): FlowWeights {
  const cache: Float64Array[] = [];
  const scratch = new Float64Array(input.curves.lpm.length);
  const compute = (effects: readonly Effect[]) => {
    const source = input.sourceWith(effects);
    if (effects.length > 1) return flowChances(input, source, effects, MEAN_LOADING, scratch);
    const out = new Float64Array(input.curves.lpm.length);
    for (const { times, chance } of LOADING) {
      const flows = flowChances(input, source, effects, times);
      for (let j = 0; j < out.length; j++) out[j] = (out[j] ?? 0) + chance * (flows[j] ?? 0);
    }
    return out;
  };
  const none = compute([]);
  return (effects) => {
    const [first, second] = effects;
    const a = first && moves(first) ? first : second && moves(second) ? second : null;
    if (!a) return none;
    if (a === first && second && moves(second)) return compute(effects);
    cache[a.id] ??= compute([a]);
    return cache[a.id] ?? none;
  };
}

const moves = (e: Effect) =>
  e.partLoss !== null || e.atReducer || e.pipeTimes !== 1 || e.outletLn !== 0 || e.atSource;

/**
 * Chance of each flow of the grid under one scenario.
 * @param out written to and returned; a new array when left out
 */
export function flowChances(
  { curves, house }: Pick<OpenInput, 'curves' | 'house'>,
  source: Source,
  effects: readonly Effect[],
  loaded: number,
  out: Float64Array = new Float64Array(curves.lpm.length),
): Float64Array {
  const pipeTimes = effects.reduce((product, effect) => product * effect.pipeTimes, 1);
  const outletLn = effects.reduce((sum, effect) => sum + effect.outletLn, 0);
  const tapTimes = Math.exp(-2 * outletLn);
  const lossesBehind = (from: number) => {
    const clean = cleanLoss(curves, loaded, from);
    return (j: number) => {
      let bar = clean[j] ?? 0;
      for (const { at, partLoss } of effects) if (partLoss && at > from) bar += partLoss[j] ?? 0;
      return bar;
    };
  };
  const losses = lossesBehind(-1);
  const held = curves.reducers.map((reducer) => ({
    bar: heldBy(reducer, effects).bar,
    lost: lossesBehind(reducer.at),
  }));
  const supply = (j: number) => {
    const raw = source.raw[j] ?? 0;
    const cycles = source.cycling[j] ?? 0;
    const steady =
      source.control === 'variable-speed' && !source.neverStops
        ? Math.min(raw, source.highBar)
        : raw;
    const between =
      source.control === 'pressure-switch' ? (source.lowBar + source.highBar) / 2 : steady;
    return cycles * between + (1 - cycles) * steady;
  };
  const arrives = (j: number) =>
    held.reduce((bar, { bar: set, lost }) => Math.min(bar, set - lost(j)), supply(j) - losses(j));
  const surplus = (j: number) =>
    arrives(j) -
    house.staticBar -
    (house.pipeBar[j] ?? 0) * pipeTimes -
    (house.tapBar[j] ?? 0) * tapTimes;
  out.fill(0);
  if (surplus(0) <= 0.003) {
    out[0] = 1;
    return out;
  }
  let low = 0;
  let high = out.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (surplus(middle) > 0) low = middle;
    else high = middle;
  }
  const above = surplus(low);
  const under = surplus(high);
  const at = low + (above > under ? Math.min(1, above / (above - under)) : 0);
  const tap = Math.max(0.01, (house.tapBar[low] ?? 0) * tapTimes);
  const steep = Math.max(0.02, (above - under) / curves.step / (2 * tap));
  const spreadBar = Math.hypot(
    source.sd[low] ?? 0,
    0.25 * losses(low),
    source.control === 'pressure-switch' ? 0.2 : 0,
  );
  const sd =
    Math.max(
      0.12,
      (Math.hypot(house.sizeSd, outletLn === 0 ? 0 : 0.3) + spreadBar / (2 * tap)) /
        Math.max(1, steep),
    ) / curves.step;
  let total = 0;
  for (
    let j = Math.max(1, Math.floor(at - 4 * sd));
    j <= Math.min(out.length - 1, Math.ceil(at + 4 * sd));
    j++
  ) {
    const w = Math.exp(-0.5 * ((j - at) / sd) ** 2);
    out[j] = w;
    total += w;
  }
  for (let j = 0; j < out.length; j++) out[j] = (out[j] ?? 0) / total;
  return out;
}

const cleanLosses = new WeakMap<Curves, Map<string, Float64Array>>();

/** Loss of the line behind a place, cartridges loaded this much; kept per plant because every scenario asks for it. */
function cleanLoss(curves: Curves, loaded: number, from: number): Float64Array {
  const kept = cleanLosses.get(curves) ?? new Map<string, Float64Array>();
  cleanLosses.set(curves, kept);
  const key = `${loaded} ${from}`;
  const known = kept.get(key);
  if (known) return known;
  const out = new Float64Array(curves.lpm.length);
  for (const part of curves.parts.slice(from + 1)) {
    if (!part) continue;
    for (let j = 0; j < out.length; j++) {
      out[j] =
        (out[j] ?? 0) +
        (part.lossBar[j] ?? 0) +
        (part.loads ? (loaded - 1) * (part.linearBar[j] ?? 0) : 0);
    }
  }
  kept.set(key, out);
  return out;
}
