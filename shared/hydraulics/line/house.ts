import { pipeLossPa } from '../pipe.ts';
import { fallingRoot } from '../root.ts';
import { outletFlowM3s } from '../tap.ts';
import { columnPa } from './losses.ts';
import type { Line, OpenTaps } from './types.ts';

/** The outlets that stand open, as the solver wants them: pressures count at the house's height, behind its pipe. */
export interface Draw {
  /** m³/s per √Pa of everything open at the house's own height, where nothing else is open */
  readonly k: number;
  /** where outlets at other heights are open: all of them, by the pressure that their height takes; else empty */
  readonly floors: readonly Floor[];
}

interface Floor {
  readonly risePa: number;
  /** m³/s per √Pa */
  readonly k: number;
}

/** Unknown tap ids are left out: the answers' check names them before. */
export function drawOf(line: Line, open: OpenTaps): Draw {
  const { house } = line;
  const ordinary = house.tap.k * house.tap.kFactor;
  if (open === 'closed') return { k: house.leakK, floors: [] };
  if (typeof open.open === 'number') {
    return { k: house.leakK + Math.max(0, open.open) * ordinary, floors: [] };
  }
  let k = house.leakK;
  const floors: Floor[] = [];
  for (const tap of house.taps) {
    if (!open.open.includes(tap.id)) continue;
    if (tap.heightM === house.heightM) k += tap.k * tap.kFactor;
    else {
      const risePa = columnPa(line, tap.heightM - house.heightM);
      floors.push({ risePa, k: tap.k * tap.kFactor });
    }
  }
  if (floors.length === 0) return { k, floors };
  if (k > 0) floors.push({ risePa: 0, k });
  floors.sort((a, b) => a.risePa - b.risePa);
  return { k: 0, floors };
}

/** Pressure behind the house's pipe under which nothing flows, Pa; infinite where nothing is open. */
export function leastPressurePa(draw: Draw): number {
  const lowest = draw.floors.find((floor) => floor.k > 0);
  if (lowest) return lowest.risePa;
  return draw.k > 0 ? 0 : Number.POSITIVE_INFINITY;
}

/** Flow of all open outlets at a pressure behind the house's pipe, m³/s. */
export function drawFlowM3s(draw: Draw, pressurePa: number): number {
  let flow = outletFlowM3s(draw.k, pressurePa);
  for (const floor of draw.floors) flow += outletFlowM3s(floor.k, pressurePa - floor.risePa);
  return flow;
}

/** Pressure behind the house's pipe at which the open outlets pass a flow: the inverse of `drawFlowM3s`, Pa. */
export function drawPressurePa(draw: Draw, flowM3s: number): number {
  if (draw.floors.length > 0) return severalFloorsPa(draw.floors, flowM3s);
  const root = flowM3s / draw.k;
  return root * root;
}

/**
 * Σ k·√(p − rise) = Q over the outlets that flow. With s = √(p − highest of them) the sum is convex and rises with s,
 * so Newton's method started at s = Q/Σk falls to the root without leaving it behind.
 */
function severalFloorsPa(floors: readonly Floor[], flowM3s: number): number {
  let flowing = 1;
  let sumK = floors[0]?.k ?? 0;
  while (flowing < floors.length) {
    const next = floors[flowing];
    if (next === undefined || flowAt(floors, flowing, next.risePa) >= flowM3s) break;
    sumK += next.k;
    flowing++;
  }
  const base = floors[flowing - 1]?.risePa ?? 0;
  let s = flowM3s / sumK;
  for (let step = 0; step < 30 && flowing > 1; step++) {
    let flow = 0;
    let slope = 0;
    for (let i = 0; i < flowing; i++) {
      const floor = floors[i];
      if (floor === undefined) break;
      const root = Math.sqrt(s * s + base - floor.risePa);
      flow += floor.k * root;
      slope += root > 0 ? (floor.k * s) / root : floor.k;
    }
    const change = slope > 0 ? (flow - flowM3s) / slope : 0;
    s = Math.max(0, s - change);
    if (Math.abs(change) <= 1e-12 * s) break;
  }
  return base + s * s;
}

/** Flow of the lowest outlets at a pressure. */
function flowAt(floors: readonly Floor[], count: number, pa: number): number {
  let flow = 0;
  for (let i = 0; i < count; i++) {
    const floor = floors[i];
    if (floor) flow += outletFlowM3s(floor.k, pa - floor.risePa);
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
  const least = leastPressurePa(draw);
  if (!(flowM3s > 0)) return Number.isFinite(least) ? Math.max(0, least) : 0;
  if (!Number.isFinite(least)) return least;
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
