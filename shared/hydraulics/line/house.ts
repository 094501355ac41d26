import { pipeLossPa } from '../pipe.ts';
import { fallingRoot } from '../root.ts';
import { outletFlowM3s } from '../tap.ts';
import { columnPa } from './losses.ts';
import type { Line, OpenTaps } from './types.ts';

/** The outlets that stand open, as the solver wants them: pressures count at the house's height, behind its pipe. */
export interface Draw {
  /** m³/s per √Pa of everything open at the house's own height */
  readonly k: number;
  /** outlets at other heights: pressure that their height takes, Pa, rising; and their constants */
  readonly others: readonly { readonly risePa: number; readonly k: number }[];
}

/** Unknown tap ids are left out: the answers' check names them before. */
export function drawOf(line: Line, open: OpenTaps): Draw {
  const { house } = line;
  if (open === 'closed') return { k: house.leakK, others: [] };
  if (typeof open.open === 'number') {
    return {
      k: house.leakK + Math.max(0, open.open) * house.tap.k * house.tap.kFactor,
      others: [],
    };
  }
  let k = house.leakK;
  const others: { risePa: number; k: number }[] = [];
  for (const tap of house.taps) {
    if (!open.open.includes(tap.id)) continue;
    if (tap.heightM === house.heightM) k += tap.k * tap.kFactor;
    else {
      const risePa = columnPa(line, tap.heightM - house.heightM);
      others.push({ risePa, k: tap.k * tap.kFactor });
    }
  }
  others.sort((a, b) => a.risePa - b.risePa);
  return { k, others };
}

/** Whether anything can flow at all. */
export function draws(draw: Draw): boolean {
  return draw.k > 0 || draw.others.some((outlet) => outlet.k > 0);
}

/** Pressure behind the house's pipe under which nothing flows, Pa. */
export function leastPressurePa(draw: Draw): number {
  let least = draw.k > 0 ? 0 : Number.POSITIVE_INFINITY;
  for (const outlet of draw.others) {
    if (outlet.k > 0) least = Math.min(least, outlet.risePa);
  }
  return least;
}

/** Flow of all open outlets at a pressure behind the house's pipe, m³/s. */
export function drawFlowM3s(draw: Draw, pressurePa: number): number {
  let flow = outletFlowM3s(draw.k, pressurePa);
  for (const outlet of draw.others) flow += outletFlowM3s(outlet.k, pressurePa - outlet.risePa);
  return flow;
}

/** Pressure behind the house's pipe at which the open outlets pass a flow: the inverse of `drawFlowM3s`, Pa. */
export function drawPressurePa(draw: Draw, flowM3s: number): number {
  if (draw.others.length === 0) {
    const root = flowM3s / draw.k;
    return root * root;
  }
  const open = draw.k > 0 ? [{ risePa: 0, k: draw.k }, ...draw.others] : [...draw.others];
  open.sort((a, b) => a.risePa - b.risePa);
  return severalHeightsPa(open, flowM3s);
}

/**
 * Σ k·√(p − rise) = Q over the outlets that flow. With s = √(p − highest of them) the sum is convex and rises with s,
 * so Newton's method started at s = Q/Σk falls to the root without leaving it behind.
 */
function severalHeightsPa(
  open: readonly { readonly risePa: number; readonly k: number }[],
  flowM3s: number,
): number {
  let flowing = 1;
  let sumK = open[0]?.k ?? 0;
  while (flowing < open.length) {
    const next = open[flowing];
    if (next === undefined || flowAt(open, flowing, next.risePa) >= flowM3s) break;
    sumK += next.k;
    flowing++;
  }
  const base = open[flowing - 1]?.risePa ?? 0;
  let s = flowM3s / sumK;
  for (let step = 0; step < 30; step++) {
    let flow = 0;
    let slope = 0;
    for (let i = 0; i < flowing; i++) {
      const outlet = open[i];
      if (outlet === undefined) break;
      const root = Math.sqrt(s * s + base - outlet.risePa);
      flow += outlet.k * root;
      slope += root > 0 ? (outlet.k * s) / root : outlet.k;
    }
    const change = slope > 0 ? (flow - flowM3s) / slope : 0;
    s = Math.max(0, s - change);
    if (Math.abs(change) <= 1e-12 * s) break;
  }
  return base + s * s;
}

function flowAt(open: readonly { risePa: number; k: number }[], count: number, pa: number): number {
  let flow = 0;
  for (let i = 0; i < count; i++) {
    const outlet = open[i];
    if (outlet) flow += outletFlowM3s(outlet.k, pa - outlet.risePa);
  }
  return flow;
}

/** Pressure lost in the house's pipe, Pa. */
export function housePipeLossPa(line: Line, flowM3s: number): number {
  return line.house.lossFactor * pipeLossPa(line.house.pipe, flowM3s, line.water);
}

/** Gauge pressure needed where the house's pipe begins, told at the house's height, for a flow through the open outlets, Pa. */
export function housePressureForPa(line: Line, open: OpenTaps, flowM3s: number): number {
  const draw = drawOf(line, open);
  if (!(flowM3s > 0)) return Math.max(0, draws(draw) ? leastPressurePa(draw) : 0);
  if (!draws(draw)) return Number.POSITIVE_INFINITY;
  return housePipeLossPa(line, flowM3s) + drawPressurePa(draw, flowM3s);
}

/** Flow through the open outlets at a gauge pressure where the house's pipe begins, told at the house's height, m³/s. */
export function outletFlow(line: Line, open: OpenTaps, housePressurePa: number): number {
  const draw = drawOf(line, open);
  const most = drawFlowM3s(draw, housePressurePa);
  if (!(most > 0)) return 0;
  return fallingRoot(
    (flow) => housePressurePa - housePipeLossPa(line, flow) - drawPressurePa(draw, flow),
    0,
    most,
    1,
  );
}
