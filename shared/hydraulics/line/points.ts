import { housePipeLossPa } from './house.ts';
import { columnPa, elementLossPa, flowThrough } from './losses.ts';
import { sourceHeightM } from './source.ts';
import type { Line, Point } from './types.ts';

/**
 * Gauge pressures after every part, each at its own height.
 *
 * @param startPa pressure at the source's height where the elements behind `from` begin
 * @param from index of the element whose pressure is `startPa`; -1: the pump (or tank) itself
 */
export function pointsOf(line: Line, flowM3s: number, startPa: number, from = -1): Point[] {
  const { elements, house } = line;
  const points = sourcePoints(line, from < 0 ? flowM3s : 0, from < 0 ? startPa : null);
  let pa = startPa;
  let height = from < 0 ? sourceHeightM(line) : (elements[from]?.heightM ?? 0);
  for (let i = 0; i < elements.length; i++) {
    const element = elements[i];
    if (element === undefined) break;
    if (i < from) {
      points.push({ after: element.id, pa: restPa(line, element.heightM) });
      continue;
    }
    if (i > from) {
      if (element.heightM !== height) pa -= columnPa(line, element.heightM - height);
      pa -= elementLossPa(element, flowThrough(line, i, flowM3s), line.water);
      if (element.setPa !== null && pa > element.setPa) pa = element.setPa;
      height = element.heightM;
    }
    points.push({ after: element.id, pa });
  }
  pa -= columnPa(line, house.heightM - height) + housePipeLossPa(line, flowM3s);
  points.push({ after: house.id, pa });
  return points;
}

/** Gauge pressure of the tank's water at a height, nothing flowing, Pa. */
function restPa(line: Line, heightM: number): number {
  return columnPa(line, line.tank.levelM + line.tank.outletHeightM - heightM);
}

/** Tank, suction side and pump. */
function sourcePoints(line: Line, flowM3s: number, pumpPa: number | null): Point[] {
  const points: Point[] = [];
  const { tank, pump } = line;
  if (tank.id !== null) points.push({ after: tank.id, pa: columnPa(line, tank.levelM) });
  let lost = line.extraSuctionLossK * flowM3s * flowM3s;
  for (const element of line.inlet) {
    lost += elementLossPa(element, flowM3s, line.water);
    points.push({ after: element.id, pa: restPa(line, element.heightM) - lost });
  }
  if (pump) points.push({ after: pump.id, pa: pumpPa ?? restPa(line, pump.heightM) });
  return points;
}
