import {
  drawOf,
  drawPressurePa,
  housePipeLossPa,
  leastPressurePa,
} from '../hydraulics/line/house.ts';
import { elementLossPa } from '../hydraulics/line/losses.ts';
import { pumpInletPa, pumpOutletPa, sourceHeightM } from '../hydraulics/line/source.ts';
import type { Line, OpenTaps } from '../hydraulics/line/types.ts';
import { lpmToM3s, m3sToLpm, paToBar } from '../hydraulics/units.ts';
import type { Assumed, ResolvedPlant } from '../plant/defaults.ts';
import { type Reducer, reducersOf } from './reducers.ts';

/**
 * The clean plant on a grid of flows: what the pump can give, what each part takes, what the house needs. Given the
 * flow, segments do not depend on each other; so a fault only adds to or takes from one of these curves.
 * Flows in L/min, pressures in bar at the pump's height (the tank's outlet for a plant without a pump).
 */
export interface Curves {
  /** first flow is zero, the rest are evenly spaced on a log scale */
  readonly lpm: Float64Array;
  /** step of ln(flow) */
  readonly step: number;
  readonly datumM: number;
  /** pressure the running pump (or the tank alone) gives at its outlet */
  readonly source: Float64Array;
  readonly sourceSd: Float64Array;
  /** the tank alone, pump standing still */
  readonly gravityBar: number;
  /** pressure before the pump; and the flow the house needs at once, at which suction losses are stated */
  readonly inletBar: Float64Array;
  readonly needLpm: number;
  /** by index in the plant's line; null for parts that cost nothing behind the pump */
  readonly parts: readonly (PartCurve | null)[];
  /** what they take depends on what stands before them, so it is in no part's curve */
  readonly reducers: readonly Reducer[];
}

export interface PartCurve {
  readonly lossBar: Float64Array;
  /** the part of it that grows linearly with flow */
  readonly linearBar: Float64Array;
  /** relative standard uncertainty of the clean loss */
  readonly spread: number;
  /** a cartridge loads between changes; other parts do not */
  readonly loads: boolean;
}

/** What the house needs at its entry in one tap state, at the curves' datum, and how much of it is at the outlets. */
export interface HouseCurve {
  readonly pipeBar: Float64Array;
  readonly tapBar: Float64Array;
  readonly staticBar: number;
  /** standard deviation of ln(outlet size) */
  readonly sizeSd: number;
  readonly pipeSpread: number;
}

const FLOWS = 32;
const LEAST_LPM = 0.08;

export function curvesOf(line: Line, plant: ResolvedPlant, assumed: readonly Assumed[]): Curves {
  const most = mostLpm(line);
  const step = Math.log(most / LEAST_LPM) / (FLOWS - 2);
  const lpm = Float64Array.from({ length: FLOWS }, (_, j) =>
    j === 0 ? 0 : LEAST_LPM * Math.exp(step * (j - 1)),
  );
  const along = (pa: (m3s: number) => number) => lpm.map((q) => paToBar(pa(lpmToM3s(q))));
  const source = along((q) => pumpOutletPa(line, q));
  const still: Line = { ...line, pump: line.pump && { ...line.pump, drive: false } };
  const isAssumed = assumedIn(assumed);
  const curveAssumed = line.pump !== null && isAssumed(line.pump.id, 'curve');
  const hillAssumed = line.pump === null && isAssumed(line.tank.id ?? '', 'outletHeightM');
  const sourceShare = hillAssumed ? 0.4 : curveAssumed ? 0.1 : 0.03;
  const parts = plant.line.map((part): PartCurve | null => {
    const element = line.elements.find((e) => e.id === part.id);
    if (!element) return null;
    const lossBar = along((q) => elementLossPa(element, q, line.water));
    if (lossBar.every((bar) => bar <= 0)) return null;
    const without = along((q) => elementLossPa({ ...element, linearFactor: 0 }, q, line.water));
    return {
      lossBar,
      linearBar: lossBar.map((bar, j) => bar - (without[j] ?? 0)),
      spread: isAssumed(part.id, 'clean') ? 0.4 : 0.15,
      loads: part.kind === 'filter',
    };
  });
  return {
    lpm,
    step,
    datumM: sourceHeightM(line),
    source,
    // An unknown pump: head ±15 %, flow ±25 % (contract); a known curve is kept within a few per cent; a hill of unknown
    // height, as far as its spread in the defaults table.
    sourceSd: source.map((bar) => 0.05 + sourceShare * Math.abs(bar)),
    gravityBar: paToBar(pumpOutletPa(still, 0)),
    inletBar: along((q) => pumpInletPa(line, q)),
    needLpm: m3sToLpm(line.house.need.flowM3s),
    parts,
    reducers: reducersOf(line, plant, assumed),
  };
}

const assumedIn = (assumed: readonly Assumed[]) => (part: string, field: string) =>
  assumed.some((a) => a.part === part && a.field.startsWith(field));

/** A flow that nothing in the plant can pass: where the pump's pressure has fallen to nothing, or a wide-open house. */
function mostLpm(line: Line): number {
  let lpm = 20;
  while (lpm < 500 && pumpOutletPa(line, lpmToM3s(lpm)) > 5000) lpm *= 1.2;
  return lpm;
}

export function houseCurve(
  line: Line,
  curves: Curves,
  taps: OpenTaps | 'part-open',
  assumed: readonly Assumed[],
): HouseCurve {
  const draw = drawOf(line, taps === 'part-open' ? { open: 1 } : taps);
  const least = leastPressurePa(draw);
  const lift = line.water.densityKgM3 * 9.80665 * (line.house.heightM - curves.datumM);
  const isAssumed = assumedIn(assumed);
  return {
    pipeBar: curves.lpm.map((q) => paToBar(housePipeLossPa(line, lpmToM3s(q)))),
    tapBar: curves.lpm.map((q) =>
      q === 0 ? 0 : paToBar(drawPressurePa(draw, lpmToM3s(q)) - least),
    ),
    staticBar: paToBar(least + lift),
    // Each outlet within about 20 % of the plant's figure; an unknown tap or one part open may be nearly anything.
    sizeSd: taps === 'part-open' ? 1.2 : isAssumed(line.house.id, 'tap') ? 0.2 : 0.1,
    pipeSpread: isAssumed(line.house.id, 'pipe') ? 0.2 : 0.1,
  };
}
