import { bypassK, columnPa, flowBesideBypass, sumOf } from './losses.ts';
import { sourceHeightM } from './source.ts';
import type { Line, LineBypass } from './types.ts';

/**
 * The line between source and house folded into few stages, so that asking for the pressure at its end costs the same
 * for three parts and for thirty. A stage ends at a pressure reducer, at a bypass's ends, or at the house.
 */
export interface Stage {
  readonly linear: number;
  readonly quadratic: number;
  /** coefficient of an open bypass beside the whole stage; 0: none */
  readonly bypass: number;
  /** pressure that the height gained costs, Pa */
  readonly risePa: number;
  /** no more than this at its end, Pa */
  readonly capPa: number;
}

/** Folds everything behind element `start` (included), beginning at a height in m. */
export function stagesOf(line: Line, start: number, fromHeightM: number): Stage[] {
  const { elements, house } = line;
  const stages: Stage[] = [];
  let height = fromHeightM;
  let first = start;
  for (let i = start; i < elements.length; i++) {
    const element = elements[i];
    if (element === undefined) break;
    const bypass = openBypassFrom(line, i);
    if (bypass) {
      if (i > first) stages.push(stage(line, first, i - 1, 0, NO_CAP, 0));
      stages.push(stage(line, i, bypass.last, 0, NO_CAP, bypassK(line, bypass)));
      i = bypass.last;
      first = i + 1;
    } else if (element.setPa !== null) {
      stages.push(stage(line, first, i, element.heightM - height, element.setPa, 0));
      height = element.heightM;
      first = i + 1;
    }
  }
  stages.push(stage(line, first, elements.length - 1, house.heightM - height, NO_CAP, 0));
  return stages;
}

const NO_CAP = Number.POSITIVE_INFINITY;

function stage(
  line: Line,
  first: number,
  last: number,
  riseM: number,
  capPa: number,
  bypass: number,
): Stage {
  const { linear, quadratic } = sumOf(line, first, last);
  return { linear, quadratic, bypass, risePa: columnPa(line, riseM), capPa };
}

function openBypassFrom(line: Line, index: number): LineBypass | undefined {
  if (line.bypasses.length === 0) return undefined;
  return line.bypasses.find((bypass) => bypass.open && bypass.first === index);
}

/** Stages from the pump (or the tank) to the house. */
export function stagesFromSource(line: Line): Stage[] {
  return stagesOf(line, 0, sourceHeightM(line));
}

/** Pressure where the house's pipe begins, at the house's height, Pa, for a pressure at the stages' beginning. */
export function throughStages(stages: readonly Stage[], startPa: number, flowM3s: number): number {
  let pa = startPa;
  for (const stage of stages) {
    const flow =
      stage.bypass === 0
        ? flowM3s
        : flowBesideBypass(stage.linear, stage.quadratic, stage.bypass, flowM3s);
    pa -= stage.risePa + flow * (stage.linear + stage.quadratic * flow);
    if (pa > stage.capPa) pa = stage.capPa;
  }
  return pa;
}
