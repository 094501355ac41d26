import type { Medium, PartKind } from '../../plant/schema.ts';
import type { Pipe } from '../pipe.ts';
import type { HeadCurve } from '../pump.ts';
import type { Vessel } from '../vessel.ts';
import type { Water } from '../water.ts';

/**
 * A plant's line as the solver sees it: plain immutable data in SI. A fault is a changed copy of it
 * (`{ ...line, pump: { ...line.pump, headFactor: 0.8 } }`); every factor is 1 and every extra 0 in a clean plant.
 */
export interface Line {
  readonly water: Water;
  /** absolute air pressure, Pa */
  readonly airPa: number;
  readonly tank: LineTank;
  /** everything between tank and pump, suction pipe included; without a pump, up to the suction pipe */
  readonly inlet: readonly Element[];
  /** blocked strainer or foot valve: Δp = k·Q², Pa/(m³/s)² */
  readonly extraSuctionLossK: number;
  /** null: water flows by gravity */
  readonly pump: LinePump | null;
  readonly control: LineControl;
  readonly vessels: readonly LineVessel[];
  /** every part behind the pump but the house, in order; gauges and other tees stand here too and cost nothing */
  readonly elements: readonly Element[];
  readonly bypasses: readonly LineBypass[];
  readonly house: LineHouse;
}

export interface LineTank {
  /** null: the plant has no tank, the water's surface is taken at height 0 */
  readonly id: string | null;
  /** water above the outlet, m */
  readonly levelM: number;
  readonly outletHeightM: number;
}

/** One part of the line and what it costs: (linear·linearFactor)·µ/µ20·Q + (quadratic·quadraticFactor·ρ/ρ20 + extraK)·Q². */
export interface Element {
  readonly id: string;
  readonly kind: PartKind;
  readonly medium: Medium | null;
  readonly heightM: number;
  /** Pa/(m³/s) at 20 °C */
  readonly linear: number;
  /** Pa/(m³/s)² at 20 °C */
  readonly quadratic: number;
  readonly linearFactor: number;
  readonly quadraticFactor: number;
  /** Pa/(m³/s)², whatever the water: a part-closed valve, something stuck */
  readonly extraK: number;
  /** the suction pipe's run; its loss is multiplied by quadraticFactor */
  readonly pipe: Pipe | null;
  /** a pressure reducer lets no more than this through, Pa at its own height; null: no reducer */
  readonly setPa: number | null;
  /** a mains back-up's pressure and whether it takes over by itself; null: no mains */
  readonly mains: { readonly pressurePa: number; readonly automatic: boolean } | null;
}

export interface LinePump {
  readonly id: string;
  readonly heightM: number;
  readonly curve: HeadCurve;
  /** wear: share of the head left at every flow */
  readonly headFactor: number;
  /** wear: share of the flow left at every head; above 0 */
  readonly flowFactor: number;
  /** required suction head, rising with flow; null: not known */
  readonly npshRequired: {
    readonly flows: readonly number[];
    readonly heads: readonly number[];
  } | null;
  /** false: the pump gives nothing and water passes through it by gravity only */
  readonly drive: boolean;
}

export type LineControl =
  | { readonly kind: 'pressure-switch'; readonly cutInPa: number; readonly cutOutPa: number }
  | { readonly kind: 'flow-controller'; readonly startPa: number; readonly minFlowM3s: number }
  | { readonly kind: 'variable-speed'; readonly setPa: number }
  | { readonly kind: 'none' };

/** Its gas volume empty is `volumeM3`, at `prechargePa`: a lost charge changes these. */
export interface LineVessel extends Vessel {
  readonly id: string;
  readonly heightM: number;
}

/** A way round elements `first` to `last` (both included). */
export interface LineBypass {
  readonly id: string;
  readonly first: number;
  readonly last: number;
  readonly open: boolean;
  /** Pa/(m³/s)² when open */
  readonly quadratic: number;
}

export interface Outlet {
  readonly id: string;
  readonly heightM: number;
  /** m³/s per √Pa */
  readonly k: number;
  readonly kFactor: number;
}

export interface LineHouse {
  readonly id: string;
  readonly heightM: number;
  readonly pipe: Pipe;
  readonly lossFactor: number;
  /** one ordinary tap fully open, at the house's height */
  readonly tap: { readonly k: number; readonly kFactor: number };
  readonly taps: readonly Outlet[];
  /** water lost at the house's height behind its pipe, taps open or shut: m³/s per √Pa */
  readonly leakK: number;
  readonly need: { readonly open: number; readonly flowM3s: number };
}

/**
 * Which outlets are open: so many ordinary taps (fractions are part-open ones), named taps, or none.
 */
export type OpenTaps = { readonly open: number | readonly string[] } | 'closed';

export interface Cycle {
  readonly lowPa: number;
  readonly highPa: number;
  readonly onS: number;
  readonly offS: number;
}

export interface Point {
  /** id of the part */
  readonly after: string;
  /** gauge pressure at the part's own height */
  readonly pa: number;
}

export interface Solution {
  /** steady: flows on without stopping, or a switch that cannot reach cut-out pushes on; off: at rest */
  readonly running: 'steady' | 'cycling' | 'off';
  /** all water drawn, leaks included */
  readonly flowM3s: number;
  /** every part in order; cycling: at the mean of stop and start pressure */
  readonly points: readonly Point[];
  /** NPSH available − required while the pump runs; null without a pump or a known requirement */
  readonly npshMarginM: number | null;
  readonly cycle: Cycle | null;
}
