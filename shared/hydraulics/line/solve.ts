import { drawdownM3 } from '../vessel.ts';
import { stagesFromSource, stagesOf } from './chain.ts';
import { flowAgainst, flowsAt, type Task } from './flow.ts';
import { drawOf, leastPressurePa } from './house.ts';
import { columnPa } from './losses.ts';
import { pointsOf } from './points.ts';
import { npshMarginM, pumpFlowAtM3s, pumpInletPa, pumpOutletPa, sourceHeightM } from './source.ts';
import type { Cycle, Line, OpenTaps, Solution } from './types.ts';

/** Water that hoses and pipe walls give where there is no vessel; memory, order of size only. */
const WITHOUT_VESSEL_M3 = 1e-4;

/** Less than this is no flow: 0.06 mL a minute, under any drip. What a shut valve lets through is far less. */
const NO_FLOW_M3S = 1e-9;

/**
 * Solves a line as a whole: who runs, how much flows, which pressure stands after every part. Steady running or cycling
 * comes out of it. One equation in the flow, falling everywhere, solved inside a bracket: it always ends.
 *
 * @param open which outlets are open
 */
export function solveLine(line: Line, open: OpenTaps): Solution {
  const mains = mainsInUse(line);
  if (mains >= 0) return solveMains(line, open, mains);
  const task: Task = { line, stages: stagesFromSource(line), draw: drawOf(line, open) };
  if (!line.pump?.drive) return passive(task);
  switch (line.control.kind) {
    case 'none':
      return uncontrolled(task);
    case 'variable-speed':
      return variableSpeed(task, line.control.setPa);
    case 'pressure-switch':
      return pressureSwitch(task, line.control.cutInPa, line.control.cutOutPa);
    case 'flow-controller':
      return flowController(task, line.control.startPa, line.control.minFlowM3s);
  }
}

function steady(task: Task, flowM3s: number): Solution {
  return running(task, 'steady', flowM3s, pumpOutletPa(task.line, flowM3s));
}

function running(
  { line }: Task,
  state: 'steady' | 'off',
  flowM3s: number,
  sourcePa: number,
): Solution {
  return {
    running: state,
    flowM3s,
    points: pointsOf(line, flowM3s, sourcePa),
    npshMarginM: npshMarginM(line, flowM3s),
    cycle: null,
  };
}

const stateAt = (flowM3s: number) => (flowM3s >= NO_FLOW_M3S ? 'steady' : 'off');

/** No pump, or one that gives nothing: gravity. */
function passive(task: Task): Solution {
  const flow = flowAgainst(task, null);
  return running(task, stateAt(flow), flow, pumpInletPa(task.line, flow));
}

/** Runs while water is drawn; with all shut somebody has switched it off, at its shut-off pressure. */
function uncontrolled(task: Task): Solution {
  const flow = flowAgainst(task, null);
  return running(task, stateAt(flow), flow, pumpOutletPa(task.line, flow));
}

/** What gravity alone keeps up at the outlet of the stopped pump; null where it does not hold `leastPa`. */
function heldByGravity(task: Task, leastPa: number): Solution | null {
  const { line } = task;
  if (pumpInletPa(line, 0) < leastPa || line.pump === null) return null;
  const stopped: Task = { ...task, line: { ...line, pump: { ...line.pump, drive: false } } };
  const solution = passive(stopped);
  return pumpInletPa(line, solution.flowM3s) < leastPa ? null : { ...solution, running: 'off' };
}

/** Runs at the speed that holds the set pressure, or flat out where that is not enough. */
function variableSpeed(task: Task, setPa: number): Solution {
  const byGravity = heldByGravity(task, setPa);
  if (byGravity) return byGravity;
  const flow = flowAgainst(task, setPa);
  if (pumpOutletPa(task.line, flow) >= setPa) {
    return running(task, stateAt(flow), flow, setPa);
  }
  return steady(task, flowAgainst(task, null));
}

/**
 * Starts at cut-in, stops at cut-out. Running on, the pump settles above cut-out just where it gives more than the line
 * passes at cut-out (its pressure falls with the flow, the line's rises): there it cycles.
 */
function pressureSwitch(task: Task, cutInPa: number, cutOutPa: number): Solution {
  const byGravity = heldByGravity(task, cutInPa);
  if (byGravity) return byGravity;
  const flow = flowAgainst(task, null);
  return pumpOutletPa(task.line, flow) < cutOutPa
    ? steady(task, flow)
    : stopsAt(task, cutInPa, cutOutPa);
}

/** Starts at its start pressure, stops when less than its least flow passes. */
function flowController(task: Task, startPa: number, minFlowM3s: number): Solution {
  const byGravity = heldByGravity(task, startPa);
  if (byGravity) return byGravity;
  const flow = flowAgainst(task, null);
  const stopPa = pumpOutletPa(task.line, flow);
  if (flow >= minFlowM3s && flow > 0) return steady(task, flow);
  if (stopPa <= startPa) return steady(task, flow);
  return stopsAt(task, startPa, stopPa);
}

/** The pump has stopped at `highPa`: it rests there, or the draw brings it down to `lowPa` and it starts again. */
function stopsAt(task: Task, lowPa: number, highPa: number): Solution {
  const { line } = task;
  if (!flowsAt(task, lowPa)) {
    return running(task, 'off', 0, restingPa(task, lowPa, highPa));
  }
  const meanPa = (lowPa + highPa) / 2;
  const flowM3s = flowAgainst(task, meanPa);
  if (flowM3s < NO_FLOW_M3S) {
    return running(task, 'off', flowAgainst(task, highPa), highPa);
  }
  const pumpFlow = pumpFlowAtM3s(line, meanPa);
  return {
    running: 'cycling',
    flowM3s,
    points: pointsOf(line, flowM3s, meanPa),
    npshMarginM: npshMarginM(line, pumpFlow),
    cycle: cycleOf(line, lowPa, highPa, flowM3s, pumpFlow),
  };
}

/** Where a stopped pump's pressure comes to rest: the stop pressure, or where the last open outlet ceases to flow. */
function restingPa(task: Task, lowPa: number, highPa: number): number {
  if (!flowsAt(task, highPa)) return highPa;
  const { line } = task;
  const risePa = columnPa(line, line.house.heightM - sourceHeightM(line));
  return Math.min(highPa, Math.max(lowPa, risePa + leastPressurePa(task.draw)));
}

function cycleOf(
  line: Line,
  lowPa: number,
  highPa: number,
  drawM3s: number,
  pumpM3s: number,
): Cycle {
  let given = line.vessels.length === 0 ? WITHOUT_VESSEL_M3 : 0;
  for (const vessel of line.vessels) {
    const rise = columnPa(line, vessel.heightM - sourceHeightM(line));
    given += drawdownM3(vessel, lowPa - rise, highPa - rise, line.airPa);
  }
  const surplus = Math.max(pumpM3s - drawM3s, 1e-9 * pumpM3s);
  return { lowPa, highPa, onS: given / surplus, offS: given / drawM3s };
}

/** Index of a mains back-up that feeds the line: nothing else can, and it takes over by itself (or is the only source). */
function mainsInUse(line: Line): number {
  const noSource = line.pump === null && line.tank.id === null;
  if (line.pump?.drive && !noSource) return -1;
  return line.elements.findIndex(
    (element) => element.mains !== null && (element.mains.automatic || noSource),
  );
}

function solveMains(line: Line, open: OpenTaps, index: number): Solution {
  const element = line.elements[index];
  const pressurePa = element?.mains?.pressurePa ?? 0;
  const stages = stagesOf(line, index + 1, element?.heightM ?? 0);
  const flowM3s = flowAgainst({ line, stages, draw: drawOf(line, open) }, pressurePa);
  return {
    running: stateAt(flowM3s),
    flowM3s,
    points: pointsOf(line, flowM3s, pressurePa, index),
    npshMarginM: null,
    cycle: null,
  };
}
