import { flowAtHeadM3s, headM } from '../pump.ts';
import { flowWhereSpent } from '../root.ts';
import { type Stage, throughStages } from './chain.ts';
import {
  type Draw,
  drawFlowM3s,
  drawPressurePa,
  housePipeLossPa,
  leastPressurePa,
} from './house.ts';
import { columnPa } from './losses.ts';
import { pumpOutletPa } from './source.ts';
import type { Line, LinePump } from './types.ts';

/** A line and what is open at its end, folded for asking many times. */
export interface Task {
  readonly line: Line;
  readonly stages: readonly Stage[];
  readonly draw: Draw;
}

/**
 * Flow at which the source, the line and the open outlets agree, m³/s.
 *
 * @param heldPa pressure held at the source; null: what the running pump (or gravity) gives at that flow
 */
export function flowAgainst({ line, stages, draw }: Task, heldPa: number | null): number {
  const restPa = throughStages(stages, heldPa ?? pumpOutletPa(line, 0), 0);
  const surplusPa = restPa - leastPressurePa(draw);
  if (!(surplusPa > 0)) return 0;
  return flowWhereSpent(
    (flow) =>
      throughStages(stages, heldPa ?? pumpOutletPa(line, flow), flow) -
      housePipeLossPa(line, flow) -
      drawPressurePa(draw, flow),
    drawFlowM3s(draw, restPa),
    surplusPa,
    guessFlowM3s({ line, stages, draw }, surplusPa, heldPa === null),
  );
}

/** Friction factor of a household pipe for a first guess. */
const GUESSED_FRICTION = 0.027;

/** Root of a·Q + b·Q² = surplus with everything that resists in one place: a few percent from the solution. */
function guessFlowM3s({ line, stages, draw }: Task, surplusPa: number, running: boolean): number {
  const { pipe, lossFactor } = line.house;
  let k = draw.k;
  for (const floor of draw.floors) k += floor.k;
  const velocity = (line.water.densityKgM3 * lossFactor) / (2 * pipe.areaM2 * pipe.areaM2);
  let linear = 0;
  let quadratic =
    1 / (k * k) + velocity * (pipe.fittingsK + (GUESSED_FRICTION * pipe.lengthM) / pipe.boreM);
  for (const stage of stages) {
    if (stage.bypass !== 0) continue;
    linear += stage.linear;
    quadratic += stage.quadratic;
  }
  if (running && line.pump?.drive) quadratic += pumpFallPa(line, line.pump);
  return (2 * surplusPa) / (linear + Math.sqrt(linear * linear + 4 * quadratic * surplusPa));
}

/** How fast a pump's pressure falls with the square of its flow, Pa/(m³/s)²: its curve as one parabola. */
function pumpFallPa(line: Line, pump: LinePump): number {
  const { curve, headFactor, flowFactor } = pump;
  const shutOff = headM(curve, 0);
  const zeroFlow = flowAtHeadM3s(curve, 0.5 * shutOff) * Math.SQRT2 * flowFactor;
  return (columnPa(line, shutOff) * headFactor) / (zeroFlow * zeroFlow);
}

/** Whether anything flows while a pressure is held at the source. */
export function flowsAt({ stages, draw }: Task, sourcePa: number): boolean {
  return throughStages(stages, sourcePa, 0) > leastPressurePa(draw);
}
