import type { FlowAndHead, Medium } from './parts.ts';

/**
 * A plant with every value that the hydraulics need. `null` stays where no table can know better: what was fitted when,
 * how big a tank is, which rating a cartridge has.
 */
export interface ResolvedPlant {
  readonly name: string;
  readonly altitudeM: number;
  readonly waterTempC: number;
  readonly line: readonly ResolvedPart[];
}

interface Base {
  readonly id: string;
  readonly heightM: number;
}

export interface Clean {
  readonly flowLpm: number;
  readonly dropBar: number;
  readonly linearShare: number;
}

export interface ResolvedTank {
  readonly id: string;
  readonly kind: 'tank';
  readonly volumeL: number | null;
  readonly levelM: number;
  readonly outletHeightM: number;
}

export interface ResolvedSuction extends Base {
  readonly kind: 'suction';
  readonly lengthM: number;
  readonly boreMm: number;
  readonly roughnessMm: number;
  readonly fittingsK: number;
  readonly strainer: boolean;
  readonly footValve: boolean;
}

export type ResolvedControl =
  | {
      readonly kind: 'pressure-switch';
      readonly cutInBar: number;
      readonly cutOutBar: number;
    }
  | { readonly kind: 'flow-controller'; readonly startBar: number; readonly minFlowLpm: number }
  | { readonly kind: 'variable-speed'; readonly setBar: number }
  | { readonly kind: 'none' };

export interface ResolvedPump extends Base {
  readonly kind: 'pump';
  readonly submersible: boolean;
  readonly checkValve: boolean | null;
  readonly curve: readonly FlowAndHead[];
  readonly npshRequired: readonly FlowAndHead[] | null;
  readonly control: ResolvedControl;
}

export interface ResolvedVessel extends Base {
  readonly kind: 'vessel';
  readonly volumeL: number;
  readonly prechargeBar: number;
}

export interface ResolvedValve extends Base {
  readonly kind: 'valve';
  readonly open: boolean;
}

export interface ResolvedBypass extends Base {
  readonly kind: 'bypass';
  readonly around: readonly string[];
  readonly open: boolean;
}

export interface ResolvedReducer extends Base {
  readonly kind: 'pressure-reducer';
  readonly setBar: number;
}

export interface ResolvedRelief extends Base {
  readonly kind: 'relief-valve';
  readonly setBar: number;
}

export interface ResolvedGauge extends Base {
  readonly kind: 'gauge';
  readonly rangeBar: number;
  readonly classPercent: number;
  readonly divisionBar: number;
}

export interface ResolvedFilter extends Base {
  readonly kind: 'filter';
  readonly medium: Medium;
  readonly ratingMicron: number | null;
  readonly bleed: boolean | null;
  readonly clean: Clean;
  readonly fittedOn: string | null;
  readonly lifeMonths: number | null;
}

export interface ResolvedUv extends Base {
  readonly kind: 'uv';
  readonly ratedFlowLpm: number | null;
  readonly ratedDoseMjCm2: number | null;
  readonly lampFittedOn: string | null;
  readonly lampLifeH: number | null;
  readonly clean: Clean;
}

export interface ResolvedMains extends Base {
  readonly kind: 'mains';
  readonly changeover: 'automatic' | 'manual';
  readonly pressureBar: number;
}

export interface ResolvedTee extends Base {
  readonly kind: 'check-valve' | 'dosing-pump' | 'drain';
}

export interface ResolvedTap {
  readonly id: string;
  readonly heightM: number;
  readonly flowLpm: number;
  readonly atBar: number;
}

export interface ResolvedHouse extends Base {
  readonly kind: 'house';
  readonly pipe: {
    readonly lengthM: number;
    readonly boreMm: number;
    readonly roughnessMm: number;
    readonly fittingsK: number;
  };
  readonly tap: { readonly flowLpm: number; readonly atBar: number };
  readonly taps: readonly ResolvedTap[];
  readonly need: { readonly open: number; readonly flowLpm: number };
}

export type ResolvedPart =
  | ResolvedTank
  | ResolvedSuction
  | ResolvedPump
  | ResolvedVessel
  | ResolvedValve
  | ResolvedBypass
  | ResolvedReducer
  | ResolvedRelief
  | ResolvedGauge
  | ResolvedFilter
  | ResolvedUv
  | ResolvedMains
  | ResolvedTee
  | ResolvedHouse;

export type ResolvedOf<K extends ResolvedPart['kind']> = Extract<ResolvedPart, { kind: K }>;
