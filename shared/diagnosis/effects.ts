import { columnPa } from '../hydraulics/line/losses.ts';
import { pumpOutletPa } from '../hydraulics/line/source.ts';
import type { Line } from '../hydraulics/line/types.ts';
import { lpmToM3s, paToBar } from '../hydraulics/units.ts';
import type { ResolvedPlant } from '../plant/resolved.ts';
import type { Curves } from './flow-grid.ts';
import { type PointChange, severitiesOf } from './severity.ts';
import type { Suspect } from './suspects.ts';

/** One severity of one suspect as it shows on the plant's curves. */
export interface Effect {
  /** running number among all effects of a plant, for caches */
  readonly id: number;
  readonly weight: number;
  /** share of the loss by which this severity may be off */
  readonly spread: number;
  readonly change: PointChange;
  /** bar taken from the pump's outlet */
  readonly sourceLoss: Float64Array | null;
  /** index in the plant's line of the part that now costs more (or less), and how much */
  readonly at: number;
  readonly partLoss: Float64Array | null;
  /** × the house pipe's loss; ln of the factor on the outlets' size */
  readonly pipeTimes: number;
  readonly outletLn: number;
  /** what a reducer holds is another */
  readonly atReducer: boolean;
  /** changes the pressure that source and control give; or anything at all before the first gauge */
  readonly atPressure: boolean;
  readonly atSource: boolean;
  /** the gauge that reads wrong */
  readonly gauge: string | null;
}

/** Flow at which the rule set states an extra loss. */
const STATED_LPM = 20;
/** What an open bypass leaves of the loss beside it (two tees against cartridges; common practice). */
const BYPASS_LEAVES = 0.1;

/** @param most severities of a way of the cause, by its share of all ways */
export function effectsOf(
  suspect: Suspect,
  plant: ResolvedPlant,
  line: Line,
  curves: Curves,
  most: (share: number) => number,
  nextId: () => number,
): Effect[] {
  const at = plant.line.findIndex((part) => part.id === suspect.part);
  const isGauge = plant.line[at]?.kind === 'gauge';
  const pumpAt = plant.line.findIndex((part) => part.kind === 'pump');
  return severitiesOf(suspect, most).map(({ weight, spread, change }) => {
    const loss = partLoss(change, at, plant, curves);
    // What is lost before the pump is missing at its outlet.
    const beforePump = at < pumpAt;
    const atOutlet = sourceLoss(change, line, curves) ?? (beforePump ? loss : null);
    return {
      id: nextId(),
      weight,
      spread,
      change,
      sourceLoss: atOutlet,
      atPressure: atOutlet !== null || touches(change, PRESSURE_KEYS),
      atSource:
        atOutlet !== null || touches(change, PRESSURE_KEYS) || touches(change, BEHAVIOUR_KEYS),
      at,
      partLoss: beforePump ? null : loss,
      pipeTimes: change.housePipeTimes ?? 1,
      outletLn: Math.log(change.outletTimes ?? 1),
      atReducer: change.reducerBar !== undefined,
      gauge: isGauge && change.gaugeShare !== undefined ? suspect.part : null,
    };
  });
}

const PRESSURE_KEYS = [
  'pumpGives',
  'neverStops',
  'unsteadyShare',
  'cutInBar',
  'cutOutBar',
] as const;
const BEHAVIOUR_KEYS = [
  'gasTimes',
  'prechargeBar',
  'waterlogged',
  'leakLpm',
  'backLeakLpm',
] as const;

const touches = (change: PointChange, keys: readonly (keyof PointChange)[]) =>
  keys.some((key) => change[key] !== undefined);

function sourceLoss(change: PointChange, line: Line, curves: Curves): Float64Array | null {
  const { headTimes, flowTimes, suctionLossM, levelM } = change;
  if (
    headTimes === undefined &&
    flowTimes === undefined &&
    suctionLossM === undefined &&
    levelM === undefined
  )
    return null;
  const need = Math.max(1e-6, line.house.need.flowM3s);
  const faulty: Line = {
    ...line,
    tank:
      levelM === undefined
        ? line.tank
        : { ...line.tank, levelM: Math.min(levelM, line.tank.levelM) },
    extraSuctionLossK: suctionLossM === undefined ? 0 : columnPa(line, suctionLossM) / need ** 2,
    pump: line.pump && { ...line.pump, headFactor: headTimes ?? 1, flowFactor: flowTimes ?? 1 },
  };
  return curves.lpm.map(
    (q, j) => (curves.source[j] ?? 0) - paToBar(pumpOutletPa(faulty, lpmToM3s(q))),
  );
}

function partLoss(
  change: PointChange,
  at: number,
  plant: ResolvedPlant,
  curves: Curves,
): Float64Array | null {
  const { linearTimes, extraBarAt20Lpm } = change;
  const own = curves.parts[at];
  if (linearTimes !== undefined && own) return own.linearBar.map((bar) => (linearTimes - 1) * bar);
  if (extraBarAt20Lpm !== undefined)
    return curves.lpm.map((q) => extraBarAt20Lpm * (q / STATED_LPM) ** 2);
  const part = plant.line[at];
  if (change.bypassOpen && part?.kind === 'bypass') {
    const beside = part.around.map((id) => curves.parts[plant.line.findIndex((p) => p.id === id)]);
    return curves.lpm.map(
      (_, j) =>
        -(1 - BYPASS_LEAVES) * beside.reduce((sum, curve) => sum + (curve?.lossBar[j] ?? 0), 0),
    );
  }
  return null;
}
