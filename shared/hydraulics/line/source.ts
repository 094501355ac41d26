import { flowAtHeadM3s, headM, wornHeadM } from '../pump.ts';
import { fallingRoot } from '../root.ts';
import { headKept } from '../suction.ts';
import { GRAVITY_M_S2 } from '../units.ts';
import { columnPa, elementLossPa } from './losses.ts';
import type { Line, LinePump } from './types.ts';

/** Height at which the source's pressure is told: the pump's, or the tank's outlet where there is none. */
export function sourceHeightM(line: Line): number {
  return line.pump ? line.pump.heightM : line.tank.outletHeightM;
}

/** Gauge pressure before the pump, at its height, Pa: the water's level less what the suction side costs. */
export function pumpInletPa(line: Line, flowM3s: number): number {
  const surfaceM = line.tank.levelM + line.tank.outletHeightM;
  return columnPa(line, surfaceM - sourceHeightM(line)) - inletLossPa(line, flowM3s);
}

/** Pressure that everything between tank and pump costs, Pa. */
function inletLossPa(line: Line, flowM3s: number): number {
  let loss = line.extraSuctionLossK * flowM3s * flowM3s;
  for (const element of line.inlet) loss += elementLossPa(element, flowM3s, line.water);
  return loss;
}

/**
 * Gauge pressure at the pump's outlet, at its height, while it runs, Pa: level, suction loss, worn curve, and the
 * collapse of the head where the suction head runs out. Never rises with flow. Without a pump, or one that gives
 * nothing, what gravity leaves.
 */
export function pumpOutletPa(line: Line, flowM3s: number): number {
  const inletPa = pumpInletPa(line, flowM3s);
  const { pump } = line;
  if (!pump?.drive) return inletPa;
  const head = wornHeadM(pump.curve, flowM3s, pump.headFactor, pump.flowFactor);
  const kept = headKept(marginM(line, pump, flowM3s, inletPa));
  return inletPa + line.water.densityKgM3 * GRAVITY_M_S2 * head * kept;
}

/** NPSH available − required at a flow, m; null without a pump or where the requirement is not known. */
export function npshMarginM(line: Line, flowM3s: number): number | null {
  if (!line.pump?.npshRequired) return null;
  return marginM(line, line.pump, flowM3s, pumpInletPa(line, flowM3s));
}

function marginM(line: Line, pump: LinePump, flowM3s: number, inletPa: number): number {
  const { water } = line;
  const available = (line.airPa - water.vapourPa + inletPa) / (water.densityKgM3 * GRAVITY_M_S2);
  return available - npshRequiredM(pump.npshRequired, flowM3s);
}

/** Level before the first point, straight between points, on with the last slope past the last. Unknown counts as none. */
function npshRequiredM(required: LinePump['npshRequired'], flowM3s: number): number {
  if (required === null) return 0;
  const { flows, heads } = required;
  const last = flows.length - 1;
  if (last === 0 || flowM3s <= (flows[0] ?? 0)) return heads[0] ?? 0;
  return Math.max(heads[0] ?? 0, headM({ kind: 'points', flows, heads }, flowM3s));
}

/**
 * Flow that the running pump gives against a pressure at its outlet, m³/s; 0 where it cannot reach it.
 */
export function pumpFlowAtM3s(line: Line, outletPa: number): number {
  const { pump } = line;
  if (!pump?.drive) return 0;
  const restPa = pumpInletPa(line, 0);
  const perM = line.water.densityKgM3 * GRAVITY_M_S2 * pump.headFactor;
  const bareFlow = (pa: number) =>
    pump.flowFactor * flowAtHeadM3s(pump.curve, (pa - restPa) / perM);
  const surplusPa = (flow: number) => pumpOutletPa(line, flow) - outletPa;
  // Suction losses only take away, so the bare curve gives the most; what they take there is nearly what they take here.
  const most = bareFlow(outletPa);
  const missingPa = surplusPa(most);
  const least = bareFlow(outletPa - missingPa);
  const sparePa = surplusPa(least);
  return sparePa > 0
    ? fallingRoot(surplusPa, least, most, sparePa, missingPa)
    : fallingRoot(surplusPa, 0, least, surplusPa(0), sparePa);
}
