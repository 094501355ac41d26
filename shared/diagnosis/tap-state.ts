import type { Effect } from './effects.ts';
import type { Curves, HouseCurve } from './flow-grid.ts';
import { flowUnlisted } from './measured.ts';
import { type FlowWeights, type OpenInput, readWeights } from './open-state.ts';
import { type Running, runningChance, unlistedRunning } from './running.ts';
import type { Source } from './source.ts';
import { unreadWeights } from './unread-state.ts';

/** What one open tap state was asked: gauges, the flow itself, and the pump. */
export interface TapInput extends OpenInput {
  readonly house: HouseCurve;
  /** measured flows with the question each came by */
  readonly flows: readonly { readonly question: string; readonly seen: Float64Array }[];
  /** what was heard or measured at the pump, with the question each came by */
  readonly pump: readonly { readonly question: string; readonly running: Running }[];
  readonly readingsQuestion: string | null;
  readonly cleanLpm: number;
}

export interface TapState {
  /** multiplies `out[v]` by the likelihood of this state with variant v's question left out */
  readonly multiply: (effects: readonly Effect[], out: Float64Array) => void;
  readonly unlisted: (variant: string | null) => number;
  /** relative weight of each flow of the grid, everything counted */
  readonly flowWeights: FlowWeights;
}

/** A flow with less than this share of the likeliest one's weight changes no likelihood that anyone could see. */
const NEGLIGIBLE = 1e-6;

/** @param variants null for "nothing left out" first, then the questions to leave out in turn */
export function tapState(input: TapInput, variants: readonly (string | null)[]): TapState {
  const { curves, readings } = input;
  const read = readings.length > 0 ? readWeights(input) : unreadWeights(input);
  // Leaving the readings out, only flow and pump speak of this state.
  const unread =
    readings.length > 0 && variants.includes(input.readingsQuestion) ? unreadWeights(input) : read;
  const flowSeen = variants.map((variant) =>
    productOf(
      curves,
      input.flows.filter((f) => f.question !== variant).map((f) => f.seen),
    ),
  );
  const speaks = variants.map((variant) => {
    const pump = input.pump.some((p) => p.question !== variant);
    const flow = input.flows.some((f) => f.question !== variant);
    const gauges = readings.length > 0 && variant !== input.readingsQuestion;
    return gauges || pump || flow;
  });
  const concerns = variants.map(
    (variant) =>
      variant === null ||
      variant === input.readingsQuestion ||
      input.flows.some((f) => f.question === variant) ||
      input.pump.some((p) => p.question === variant),
  );
  const pumps = variants.map((variant) => input.pump.filter((p) => p.question !== variant));
  const seenWith = new Map<Source, (Float64Array | undefined)[]>();
  // What was seen of flow and pump, times the weights; worked out only at flows that weigh anything.
  const dotSeen = (weights: Float64Array, source: Source, v: number): number => {
    const row = seenWith.get(source) ?? [];
    seenWith.set(source, row);
    row[v] ??= new Float64Array(weights.length).fill(Number.NaN);
    const seen = row[v] ?? weights;
    const flow = flowSeen[v] ?? weights;
    const heard = pumps[v] ?? [];
    let most = 0;
    for (let j = 0; j < weights.length; j++) if ((weights[j] ?? 0) > most) most = weights[j] ?? 0;
    let total = 0;
    for (let j = 0; j < weights.length; j++) {
      const weight = weights[j] ?? 0;
      if (weight <= NEGLIGIBLE * most) continue;
      let chance = seen[j] ?? 0;
      if (Number.isNaN(chance)) {
        chance = flow[j] ?? 1;
        for (const p of heard)
          chance *= runningChance(p.running, source, curves, input.cleanLpm, j);
        seen[j] = chance;
      }
      total += weight * chance;
    }
    return total;
  };
  const silent = input.pump.length === 0 && input.flows.length === 0;
  return {
    multiply: (effects, out) => {
      const weights = read(effects);
      const source = silent ? null : input.sourceWith(effects);
      const whole = source ? dotSeen(weights, source, 0) : sum(weights);
      for (let v = 0; v < variants.length; v++) {
        if (!speaks[v]) continue;
        let chance = whole;
        if (v > 0 && concerns[v]) {
          const w = variants[v] === input.readingsQuestion ? unread(effects) : weights;
          chance = source ? dotSeen(w, source, v) : sum(w);
        }
        out[v] = (out[v] ?? 0) * chance;
      }
    },
    unlisted: (variant) => {
      let chance = 1;
      for (const p of input.pump) if (p.question !== variant) chance *= unlistedRunning(p.running);
      for (const f of input.flows) if (f.question !== variant) chance *= flowUnlisted(f.seen);
      if (variant !== input.readingsQuestion)
        for (const { gauge } of readings) chance /= 0.6 * gauge.rangeBar;
      return chance;
    },
    flowWeights: (effects) => {
      const source = input.sourceWith(effects);
      const heard = pumps[0] ?? [];
      return read(effects).map((weight, j) => {
        let chance = weight * (flowSeen[0]?.[j] ?? 1);
        for (const p of heard)
          chance *= runningChance(p.running, source, curves, input.cleanLpm, j);
        return chance;
      });
    },
  };
}

function productOf(curves: Curves, factors: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(curves.lpm.length).fill(1);
  for (const factor of factors)
    for (let j = 0; j < out.length; j++) out[j] = (out[j] ?? 1) * (factor[j] ?? 1);
  return out;
}

function sum(values: Float64Array): number {
  let total = 0;
  for (let j = 0; j < values.length; j++) total += values[j] ?? 0;
  return total;
}
