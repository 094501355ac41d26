import { drawdownM3 } from '../hydraulics/vessel.ts';
import type { ResolvedPlant } from '../plant/resolved.ts';
import type { Effect } from './effects.ts';
import type { Curves } from './flow-grid.ts';
import { below, density, evenDensity } from './normal.ts';

/**
 * What stands before the first part that is measured: tank, suction, pump and its control, under the faults of one
 * scenario. Pressures in bar at the pump's outlet, on the curves' grid of flows.
 */
export interface Source {
  readonly lpm: Float64Array;
  /** what the pump can give, and its standard deviation */
  readonly raw: Float64Array;
  readonly sd: Float64Array;
  /** chance that the pump stops and starts while water runs at each flow: it can give more than the line then takes */
  readonly cycling: Float64Array;
  readonly control: 'pressure-switch' | 'flow-controller' | 'variable-speed' | 'none';
  /** restart and stop pressure (switch, controller), or the set pressure twice (variable speed) */
  readonly lowBar: number;
  readonly highBar: number;
  /** how well these are known, standard deviation */
  readonly settingSd: number;
  readonly minFlowLpm: number;
  readonly gives: 'silent' | 'hums' | 'runs-dry' | null;
  readonly neverStops: boolean;
  /** water the vessel gives between stop and start */
  readonly drawdownL: number;
  /** what the running pump gives between start and stop */
  readonly givesLpm: number;
  readonly prechargeBar: number | null;
  readonly waterlogged: boolean;
  readonly leakLpm: number;
  readonly backLeakLpm: number;
  /** metres lost besides on the suction side at the house's need */
  readonly suctionLossM: number;
}

/**
 * Share of pumps that run on where they cannot reach the pressure at which they would stop: a switch never opens, and of
 * drives about half sense that nothing flows (common practice).
 */
export const RUNS_ON: Readonly<Record<Source['control'], number>> = {
  'pressure-switch': 1,
  'variable-speed': 0.5,
  'flow-controller': 0,
  none: 0,
};

const PA_PER_BAR = 100_000;
const L_PER_M3 = 1000;
/** Pipes and hoses give a little even without a vessel (common practice). */
const PIPE_STORE_L = 0.15;
const RESTING_SD_BAR = 0.08;

/** @param settingSd how well the control's pressures are known, bar */
export function sourceOf(
  plant: ResolvedPlant,
  curves: Curves,
  airPa: number,
  settingSd: number,
  effects: readonly Effect[],
): Source {
  const pump = plant.line.find((part) => part.kind === 'pump');
  const control = pump && pump.kind === 'pump' ? pump.control : { kind: 'none' as const };
  const gives = effects.find((e) => e.change.pumpGives)?.change.pumpGives ?? null;
  const sum = (read: (e: Effect) => number | undefined) =>
    effects.reduce((total, e) => total + (read(e) ?? 0), 0);
  const times = (read: (e: Effect) => number | undefined) =>
    effects.reduce((total, e) => total * (read(e) ?? 1), 1);
  const unsteady = sum((e) => e.change.unsteadyShare);
  const { raw, sd } = gives
    ? {
        raw: new Float64Array(curves.lpm.length).fill(curves.gravityBar),
        sd: new Float64Array(curves.lpm.length).fill(RESTING_SD_BAR),
      }
    : runningBar(curves, effects, unsteady);
  const top = raw[0] ?? 0;
  const [low, high, minFlow] = rangeOf(
    control,
    top,
    sum((e) => e.change.cutInBar),
    sum((e) => e.change.cutOutBar),
  );
  const vessel = plant.line.find((part) => part.kind === 'vessel');
  const waterlogged = effects.some((e) => e.change.waterlogged);
  const precharge =
    vessel && vessel.kind === 'vessel'
      ? Math.max(0, vessel.prechargeBar + sum((e) => e.change.prechargeBar))
      : null;
  const gas =
    vessel && vessel.kind === 'vessel'
      ? (vessel.volumeL / L_PER_M3) * (waterlogged ? 0.03 : times((e) => e.change.gasTimes))
      : 0;
  const drawdown = drawdownM3(
    { volumeM3: gas, prechargePa: (precharge ?? 0) * PA_PER_BAR },
    low * PA_PER_BAR,
    high * PA_PER_BAR,
    airPa,
  );
  const neverStops = effects.some((e) => e.change.neverStops);
  return {
    lpm: curves.lpm,
    raw,
    sd,
    cycling:
      gives || neverStops
        ? new Float64Array(raw.length)
        : cyclingChances(control.kind, curves.lpm, raw, sd, high, minFlow),
    settingSd,
    control: control.kind,
    lowBar: low,
    highBar: high,
    minFlowLpm: minFlow,
    gives,
    neverStops,
    drawdownL: drawdown * L_PER_M3 + PIPE_STORE_L,
    givesLpm: flowAt(curves.lpm, raw, (low + high) / 2),
    prechargeBar: precharge,
    waterlogged,
    leakLpm: sum((e) => e.change.leakLpm),
    backLeakLpm: sum((e) => e.change.backLeakLpm),
    suctionLossM: sum((e) => e.change.suctionLossM),
  };
}

/** What the running pump can give at each flow of the grid, and how well that is known. */
function runningBar(curves: Curves, effects: readonly Effect[], unsteady: number) {
  const raw = curves.source.slice();
  const sd = new Float64Array(raw.length);
  for (const { sourceLoss, spread } of effects) {
    if (!sourceLoss) continue;
    for (let j = 0; j < raw.length; j++) {
      const lost = sourceLoss[j] ?? 0;
      raw[j] = (raw[j] ?? 0) - lost;
      sd[j] = (sd[j] ?? 0) + (spread * lost) ** 2;
    }
  }
  for (let j = 0; j < raw.length; j++) {
    // Within one step of the grid a collapsing pump passes through all pressures between.
    const step = ((raw[Math.max(0, j - 1)] ?? 0) - (raw[Math.min(raw.length - 1, j + 1)] ?? 0)) / 2;
    const own = (curves.sourceSd[j] ?? 0) ** 2 + (unsteady * Math.max(0, raw[j] ?? 0)) ** 2;
    sd[j] = Math.sqrt(own + step ** 2 / 12 + (sd[j] ?? 0));
  }
  return { raw, sd };
}

/** The first flow of the grid at which the pump no longer reaches a pressure. */
function flowAt(flows: Float64Array, raw: Float64Array, bar: number): number {
  const at = raw.findIndex((given) => given < bar);
  return (at < 0 ? flows.at(-1) : flows[at]) ?? 0;
}

type Control =
  | Extract<ResolvedPlant['line'][number], { kind: 'pump' }>['control']
  | { kind: 'none' };

function rangeOf(
  control: Control,
  shutOffBar: number,
  inShift: number,
  outShift: number,
): [number, number, number] {
  switch (control.kind) {
    case 'pressure-switch': {
      const low = Math.max(0.2, control.cutInBar + inShift);
      return [low, Math.max(low + 0.2, control.cutOutBar + outShift), 0];
    }
    case 'flow-controller': {
      const low = Math.max(0.2, control.startBar + inShift);
      return [Math.min(low, shutOffBar), Math.max(low, shutOffBar), control.minFlowLpm];
    }
    case 'variable-speed': {
      const set = Math.max(0.2, control.setBar + outShift);
      return [set, set, 0];
    }
    case 'none':
      return [shutOffBar, shutOffBar, 0];
  }
}

function cyclingChances(
  control: Source['control'],
  flows: Float64Array,
  raw: Float64Array,
  sd: Float64Array,
  highBar: number,
  minFlowLpm: number,
): Float64Array {
  const chances = new Float64Array(raw.length);
  for (let j = 0; j < chances.length; j++) {
    const lpm = flows[j] ?? 0;
    if (control === 'pressure-switch')
      chances[j] = below(((raw[j] ?? 0) - highBar) / Math.max(0.02, sd[j] ?? 0));
    if (control === 'flow-controller')
      chances[j] = lpm === 0 ? 1 : below(Math.log(minFlowLpm / lpm) / 0.2);
  }
  return chances;
}

/** Density of finding the pump's outlet at `bar` while flow j runs, read with standard deviation `readSd`. */
export function pressureDensity(source: Source, j: number, bar: number, readSd: number): number {
  const raw = source.raw[j] ?? 0;
  const own = source.sd[j] ?? 0;
  const sd = Math.sqrt(own * own + readSd * readSd);
  if (source.gives) return restingDensity(source, raw, bar, sd);
  if (source.control === 'variable-speed' && !source.neverStops) {
    const held = { bar: source.highBar, sd: source.settingSd };
    return heldDensity({ bar: raw, sd: own }, held, bar, readSd);
  }
  const setSd = Math.sqrt(readSd * readSd + source.settingSd * source.settingSd);
  const cycles = source.cycling[j] ?? 0;
  const steady =
    source.control === 'pressure-switch' && !source.neverStops
      ? Math.min(raw, source.highBar)
      : raw;
  const running = cycles < 1 - 1e-9 ? (1 - cycles) * density(bar, steady, sd) : 0;
  return (
    running + (cycles > 1e-9 ? cycles * evenDensity(bar, source.lowBar, source.highBar, setSd) : 0)
  );
}

/** A pressure known to lie about `bar`. */
interface About {
  readonly bar: number;
  readonly sd: number;
}

/** Density of reading `bar` with standard deviation `readSd` from `one`, where that is the lesser of two pressures. */
function lesserDensity(one: About, other: About, bar: number, readSd: number): number {
  const seen = Math.hypot(one.sd, readSd);
  const share = (one.sd / seen) ** 2;
  const likely = one.bar + share * (bar - one.bar);
  const left = Math.hypot(other.sd, readSd * Math.sqrt(share));
  return density(bar, one.bar, seen) * below((other.bar - likely) / left);
}

/** A drive holds its set pressure where the pump can reach it; where not, what the pump gives is seen. */
const heldDensity = (gives: About, held: About, bar: number, readSd: number): number =>
  lesserDensity(gives, held, bar, readSd) + lesserDensity(held, gives, bar, readSd);

/** Of pumps that give nothing so many stand at the tank's own head, the rest at what was left when they stopped (common practice). */
export const AT_TANK_HEAD = 0.8;
/** With all taps shut what was left stays longer: so many are as with water running. */
export const AS_RUNNING = 0.7;

/** A pump that gives nothing: the tank's own head, or what pressure was left when it stopped. */
function restingDensity(source: Source, gravityBar: number, bar: number, sd: number): number {
  return (
    AT_TANK_HEAD * density(bar, gravityBar, Math.max(0.1, sd)) +
    (1 - AT_TANK_HEAD) * evenDensity(bar, 0, Math.max(1, source.highBar), sd)
  );
}

/** Chance that the pump, all taps shut, reaches the pressure at which its control would stop it, or which it holds. */
export const reachesTop = ({ raw, sd, highBar, settingSd }: Source): number =>
  below(((raw[0] ?? 0) - highBar) / Math.max(0.02, Math.hypot(sd[0] ?? 0, settingSd)));

/** Density of the pressure at rest, all taps shut (contract "Pressures at rest"). */
export function restDensity(source: Source, bar: number, readSd: number): number {
  const top = source.raw[0] ?? 0;
  const sd = Math.hypot(source.sd[0] ?? 0, readSd);
  const setSd = Math.hypot(source.settingSd, readSd);
  if (source.gives)
    return (
      restingDensity(source, top, bar, sd) * AS_RUNNING +
      (1 - AS_RUNNING) * evenDensity(bar, 0, Math.max(1, source.highBar), readSd)
    );
  const leaks = source.leakLpm + source.backLeakLpm > 0;
  const gives = { bar: top, sd: source.sd[0] ?? 0 };
  switch (source.control) {
    case 'pressure-switch': {
      if (source.neverStops) return density(bar, top, sd);
      const stop = { bar: source.highBar, sd: source.settingSd };
      return (
        reachesTop(source) * evenDensity(bar, source.lowBar, source.highBar, setSd) +
        lesserDensity(gives, stop, bar, readSd)
      );
    }
    case 'flow-controller':
      return leaks
        ? evenDensity(bar, source.lowBar, Math.max(source.lowBar, top), sd)
        : 0.85 * density(bar, top, sd) +
            0.15 * evenDensity(bar, source.lowBar, Math.max(source.lowBar, top), readSd);
    case 'variable-speed':
      return heldDensity(
        gives,
        { bar: source.highBar, sd: Math.hypot(0.05, source.settingSd) },
        bar,
        readSd,
      );
    case 'none':
      return density(bar, top, sd);
  }
}

/** Seconds at rest and running in one cycle while `lpm` is drawn. */
export function cycleSeconds(source: Source, lpm: number): { onS: number; offS: number } {
  const gives = source.givesLpm;
  return {
    offS: (60 * source.drawdownL) / Math.max(0.01, lpm),
    onS: (60 * source.drawdownL) / Math.max(0.5, gives - lpm),
  };
}
