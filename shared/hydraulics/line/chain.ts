import { bypassK, columnPa, flowBesideBypass, sumOf } from './losses.ts';
import { sourceHeightM } from './source.ts';
import type { Line } from './types.ts';

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
  const close = (last: number, toHeightM: number, capPa: number, bypass: number) => {
    const { linear, quadratic } = sumOf(line, first, last);
    const risePa = columnPa(line, toHeightM - height);
    stages.push({ linear, quadratic, bypass, risePa, capPa });
    height = toHeightM;
    first = last + 1;
  };
  const none = Number.POSITIVE_INFINITY;
  for (let i = start; i < elements.length; i++) {
    const element = elements[i];
    if (element === undefined) break;
    const bypass = line.bypasses.find((b) => b.open && b.first === i);
    if (bypass) {
      if (i > first) close(i - 1, height, none, 0);
      close(bypass.last, height, none, bypassK(line, bypass));
      i = bypass.last;
    } else if (element.setPa !== null) {
      close(i, element.heightM, element.setPa, 0);
    }
  }
  close(elements.length - 1, house.heightM, none, 0);
  return stages;
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
