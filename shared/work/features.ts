import { gaugeBeforeValve, partsInPlace } from '../case/places.ts';
import type { Part, Plant } from '../plant/schema.ts';
import type { PlaceKind } from '../ruleset/cause.ts';
import type { When } from './schema.ts';

/** What the plant offers around the place worked on; steps are chosen by these, and the proof runs over them. */
export interface PlantFeatures {
  /** what shuts the water before the part; `lift`: the tank lies below, so with the pump off nothing comes */
  readonly supply: 'valve' | 'tank-cock' | 'lift' | 'none';
  /** another valve further back, should the first pass water */
  readonly secondValve: boolean;
  readonly canIsolate: boolean;
  /** a householder has two independent signs of there being no pressure */
  readonly canSee: boolean;
  /** a valve between the part and the house */
  readonly far: boolean;
  readonly bleed: boolean;
  /** a gauge in the section that is shut off; any gauge at all */
  readonly gauge: boolean;
  readonly gauges: boolean;
  /** one of them still sees the pump when a valve past it is shut */
  readonly gaugeBeforeValve: boolean;
  readonly drain: boolean;
  /** the pressure vessel is inside the section that is shut off, or behind its valve */
  readonly vessel: 'none' | 'inside' | 'behind';
  /** where the lamp stands, seen from the part */
  readonly uv: 'none' | 'before' | 'here' | 'after';
  readonly carbonAfterUv: boolean;
  readonly carbon: boolean;
  /** any filter with a bleed on it */
  readonly bleeds: boolean;
  readonly bypass: boolean;
  readonly pump: boolean;
  readonly submersible: boolean;
  readonly control: 'pressure-switch' | 'flow-controller' | 'variable-speed' | 'none';
  readonly mains: boolean;
  readonly strainer: boolean;
  readonly footValve: boolean;
  /** a tradesperson does it, with tools to make and see safe what a household cannot */
  readonly trade: boolean;
}

export type FreeFeatures = Omit<PlantFeatures, 'canIsolate' | 'canSee' | 'trade'>;

/** Adds what follows from the rest. */
export function withDerived(free: FreeFeatures): PlantFeatures {
  const signs = [true, free.bleed, free.gauge, free.drain, free.vessel === 'inside'];
  return {
    ...free,
    trade: false,
    canIsolate: free.supply !== 'none',
    canSee: signs.filter(Boolean).length >= 2,
  };
}

/** True when every feature named in `when` has one of its values. */
export function applies(when: When, features: PlantFeatures): boolean {
  return Object.entries(when).every(([name, wanted]) => {
    const value = features[name as keyof PlantFeatures];
    return Array.isArray(wanted) ? (wanted as unknown[]).includes(value) : wanted === value;
  });
}

/** Work at the pump, at what feeds it or what switches it: nothing to do without one. */
export const isAtPump = (at: PlaceKind): boolean =>
  at === 'pump' || at === 'suction' || at === 'control';

/** Where in the line a job works: the given part, else the first part in that place, else the house. */
export function targetIndex(plant: Plant, at: PlaceKind, partId?: string): number {
  const given = plant.line.findIndex((part) => part.id === partId);
  if (given >= 0) return given;
  const first = plant.line.findIndex((part) => partsInPlace(at, plant).includes(part.id));
  return first >= 0 ? first : plant.line.length - 1;
}

/** What the plant offers around part number `index` of its line. */
export function featuresOf(plant: Plant, index: number): PlantFeatures {
  const line = plant.line;
  const is = (kind: Part['kind']) => (part: Part) => part.kind === kind;
  const target = line[index];
  const pumpAt = line.findIndex(is('pump'));
  const pump = line[pumpAt];
  const valves = line.flatMap((part, i) => (part.kind === 'valve' ? [i] : []));
  const isPastPump = index > pumpAt;
  const before = valves.filter((i) => i < index && (!isPastPump || i > pumpAt));
  const cocks = pumpAt < 0 ? [] : valves.filter((i) => i < pumpAt && i < index);
  const supplyAt = isPastPump ? (before.at(-1) ?? cocks.at(-1)) : cocks.at(-1);
  const supply =
    supplyAt !== undefined
      ? isPastPump && supplyAt > pumpAt
        ? 'valve'
        : 'tank-cock'
      : isLift(plant, index)
        ? 'lift'
        : 'none';
  const farAt = valves.find((i) => i > index && i > pumpAt);
  const from = supplyAt ?? 0;
  const to = farAt ?? line.length;
  const inside = (i: number) => i > from && i < to;
  // a check valve, a reducer or another cartridge between would let one side stand under pressure unseen
  const parts = (a: number, b: number) => line.slice(Math.min(a, b) + 1, Math.max(a, b));
  const sameWater = (i: number) =>
    inside(i) &&
    !parts(i, index).some((part) =>
      ['check-valve', 'pressure-reducer', 'filter'].includes(part.kind),
    );
  const has = (kind: Part['kind'], where: (i: number) => boolean) =>
    line.some((part, i) => part.kind === kind && where(i));
  const vesselAt = line.findIndex(is('vessel'));
  const uvAt = line.findIndex(is('uv'));
  const suction = line.find(is('suction'));
  return withDerived({
    supply,
    secondValve: supply === 'valve' && (before.length > 1 || cocks.length > 0),
    far: farAt !== undefined,
    bleed: target?.kind === 'filter' && target.bleed === true,
    gauge: has('gauge', sameWater),
    gauges: line.some(is('gauge')),
    gaugeBeforeValve: gaugeBeforeValve(plant) !== null,
    drain: has('drain', sameWater),
    vessel: vesselAt < 0 ? 'none' : inside(vesselAt) ? 'inside' : 'behind',
    uv: uvAt < 0 ? 'none' : uvAt === index ? 'here' : uvAt < index ? 'before' : 'after',
    carbonAfterUv:
      uvAt >= 0 &&
      line.some((part, i) => i > uvAt && part.kind === 'filter' && part.medium === 'carbon'),
    carbon: line.some((part) => part.kind === 'filter' && part.medium === 'carbon'),
    bleeds: line.some((part) => part.kind === 'filter' && part.bleed === true),
    bypass: line.some(is('bypass')),
    pump: pumpAt >= 0,
    submersible: pump?.kind === 'pump' && pump.submersible === true,
    control: (pump?.kind === 'pump' && pump.control?.kind) || 'none',
    mains: line.some(is('mains')),
    strainer: suction?.kind === 'suction' && suction.strainer === true,
    footValve: suction?.kind === 'suction' && suction.footValve === true,
  });
}

/**
 * Nothing comes without the pump, as far as the plant says. One that stands dry is above the water or it is fed: unknown
 * heights count as fed. One under water feeds a line above it unless the plant says that the water stands higher; the
 * step that relies on it asks.
 */
function isLift({ line }: Plant, index: number): boolean {
  const tank = line.find((part) => part.kind === 'tank');
  const pump = line.find((part) => part.kind === 'pump');
  const waterM = tank?.levelM === undefined ? undefined : (tank.outletHeightM ?? 0) + tank.levelM;
  if (pump?.submersible) {
    const highM = heightOf(line[index]) ?? heightOf(line.at(-1));
    return waterM === undefined || (highM !== undefined && highM > waterM);
  }
  return waterM !== undefined && pump?.heightM !== undefined && pump.heightM > waterM;
}

const heightOf = (part: Part | undefined): number | undefined =>
  part && 'heightM' in part ? part.heightM : undefined;
