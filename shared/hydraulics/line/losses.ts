import { pipeLossPa } from '../pipe.ts';
import { GRAVITY_M_S2 } from '../units.ts';
import type { Water } from '../water.ts';
import type { Element, Line, LineBypass } from './types.ts';

/** Pressure that one element costs at a flow through itself, Pa. Its height is not in it. */
export function elementLossPa(element: Element, flowM3s: number, water: Water): number {
  const linear = element.linear * element.linearFactor * water.viscosityRatio;
  const quadratic =
    element.quadratic * element.quadraticFactor * water.densityRatio + element.extraK;
  const own = flowM3s * (linear + quadratic * flowM3s);
  if (element.pipe === null) return own;
  return own + element.quadraticFactor * pipeLossPa(element.pipe, flowM3s, water);
}

/** Linear and quadratic coefficient of elements `first` to `last` (included) one after another, as they are now. */
export function sumOf(
  line: Line,
  first: number,
  last: number,
): { linear: number; quadratic: number } {
  let linear = 0;
  let quadratic = 0;
  for (let i = first; i <= last; i++) {
    const element = line.elements[i];
    if (element === undefined) break;
    linear += element.linear * element.linearFactor * line.water.viscosityRatio;
    quadratic +=
      element.quadratic * element.quadraticFactor * line.water.densityRatio + element.extraK;
  }
  return { linear, quadratic };
}

/**
 * Share of a flow that still goes through elements which have an open bypass beside them: both ways cost the same,
 * a·q + b·q² = c·(Q − q)².
 *
 * @returns m³/s through the elements, 0 ≤ q ≤ Q
 */
export function flowBesideBypass(a: number, b: number, c: number, flowM3s: number): number {
  if (!(flowM3s > 0)) return 0;
  const p = a + 2 * c * flowM3s;
  const d = p * p + 4 * (b - c) * c * flowM3s * flowM3s;
  return (2 * c * flowM3s * flowM3s) / (p + Math.sqrt(Math.max(0, d)));
}

/** Flow through element `index` when `flowM3s` goes down the line. */
export function flowThrough(line: Line, index: number, flowM3s: number): number {
  const bypass = line.bypasses.length > 0 ? openBypassAt(line, index) : undefined;
  if (!bypass) return flowM3s;
  const { linear, quadratic } = sumOf(line, bypass.first, bypass.last);
  return flowBesideBypass(linear, quadratic, bypassK(line, bypass), flowM3s);
}

function openBypassAt(line: Line, index: number): LineBypass | undefined {
  return line.bypasses.find((b) => b.open && b.first <= index && index <= b.last);
}

export function bypassK(line: Line, bypass: LineBypass): number {
  return bypass.quadratic * line.water.densityRatio;
}

/**
 * Pressure lost in elements `fromIndex` (included) to `toIndex` (not included) when `flowM3s` goes down the line, Pa;
 * open bypasses counted, heights and pressure reducers not.
 */
export function lossBetweenPa(
  line: Line,
  fromIndex: number,
  toIndex: number,
  flowM3s: number,
): number {
  let loss = 0;
  for (let i = fromIndex; i < toIndex; i++) {
    const element = line.elements[i];
    if (element === undefined) break;
    loss += elementLossPa(element, flowThrough(line, i, flowM3s), line.water);
  }
  return loss;
}

/** Pressure of a column of this line's water, Pa. */
export function columnPa(line: Line, heightM: number): number {
  return line.water.densityKgM3 * GRAVITY_M_S2 * heightM;
}
