import type {
  ResolvedHouse,
  ResolvedOf,
  ResolvedPart,
  ResolvedPlant,
  ResolvedPump,
} from '../../plant/defaults.ts';
import { airPressurePa } from '../air.ts';
import { type Resistance, resistanceFrom, resistanceOfFitting } from '../cartridge.ts';
import { pipeOf } from '../pipe.ts';
import { headCurveOf } from '../pump.ts';
import { outletK } from '../tap.ts';
import { barToPa, lpmToM3s } from '../units.ts';
import { waterAt } from '../water.ts';
import type { Element, Line, LineBypass, LineControl, LineHouse, LinePump } from './types.ts';

/** Valves of a household line: 25 mm bore. */
const FITTING_BORE_M = 0.025;
/** Open ball valve 0.05, swing check valve 2 (Munson et al., Fundamentals of Fluid Mechanics, Table 8.2). */
const OPEN_VALVE_K = 0.05;
const CHECK_VALVE_K = 2;
/** A shut valve lets some 1e-6 L/min through: nothing, yet the equation keeps one solution. */
const SHUT_PA_M3S2 = 1e26;
/** A bypass: two tees by their branch, an open valve (same table: 2 · 2.0 + 0.05) on the valves' bore. */
const BYPASS_K = 4.05;

/** No coefficient beyond this: absurd plants are solved too, so nothing may overflow. */
const LARGEST = 1e26;
/** A curve's flow above zero is at least this. */
const LEAST_FLOW_M3S = 1e-12;
const bounded = (value: number): number => (value < LARGEST ? Math.max(value, -LARGEST) : LARGEST);

/**
 * The clean line of a plant, ready to be solved. Diagnosis changes copies of it.
 *
 * @param plant with every value filled in
 */
export function lineOf(plant: ResolvedPlant): Line {
  const parts = plant.line;
  const house = parts.find((part) => part.kind === 'house');
  if (!house) throw new Error('a parsed plant has a house');
  const tank = parts.find((part) => part.kind === 'tank');
  const pump = parts.find((part) => part.kind === 'pump');
  const split = pump ? parts.indexOf(pump) : lastSource(parts);
  const between = parts.slice(0, split + (pump ? 0 : 1)).filter((part) => part.kind !== 'tank');
  const behind = parts.slice(split + 1).filter((part) => part.kind !== 'house');
  return {
    water: waterAt(plant.waterTempC),
    airPa: airPressurePa(plant.altitudeM),
    tank: {
      id: tank?.id ?? null,
      levelM: bounded(tank?.levelM ?? 0),
      outletHeightM: bounded(tank?.outletHeightM ?? 0),
    },
    inlet: between.map(elementOf),
    extraSuctionLossK: 0,
    pump: pump ? pumpOf(pump) : null,
    control: pump ? controlOf(pump) : { kind: 'none' },
    vessels: parts
      .filter((part) => part.kind === 'vessel')
      .map((part) => ({
        id: part.id,
        heightM: part.heightM,
        volumeM3: part.volumeL / 1000,
        prechargePa: bounded(barToPa(part.prechargeBar)),
      })),
    elements: behind.map(elementOf),
    bypasses: behind.filter((part) => part.kind === 'bypass').map((part) => bypassOf(part, behind)),
    house: houseOf(house),
  };
}

/** Without a pump the source ends at the suction pipe, or at the tank. */
function lastSource(parts: readonly ResolvedPart[]): number {
  return parts.findLastIndex((part) => part.kind === 'suction' || part.kind === 'tank');
}

const nothing: Resistance = { linear: 0, quadratic: 0 };
const openValve = resistanceOfFitting(OPEN_VALVE_K, FITTING_BORE_M);
const checkValve = resistanceOfFitting(CHECK_VALVE_K, FITTING_BORE_M);

function elementOf(part: ResolvedPart): Element {
  const { linear, quadratic } = resistanceOf(part);
  return {
    id: part.id,
    kind: part.kind,
    medium: part.kind === 'filter' ? part.medium : null,
    heightM: bounded(part.kind === 'tank' ? part.outletHeightM : part.heightM),
    linear: bounded(linear),
    quadratic: bounded(quadratic),
    linearFactor: 1,
    quadraticFactor: 1,
    extraK: part.kind === 'valve' && !part.open ? SHUT_PA_M3S2 : 0,
    pipe:
      part.kind === 'suction'
        ? boundedPipe(part.lengthM, part.boreMm, part.roughnessMm, part.fittingsK)
        : null,
    setPa: part.kind === 'pressure-reducer' ? bounded(barToPa(part.setBar)) : null,
    mains:
      part.kind === 'mains'
        ? {
            pressurePa: bounded(barToPa(part.pressureBar)),
            automatic: part.changeover === 'automatic',
          }
        : null,
  };
}

function resistanceOf(part: ResolvedPart): Resistance {
  switch (part.kind) {
    case 'filter':
    case 'uv': {
      const { flowLpm, dropBar, linearShare } = part.clean;
      return resistanceFrom(lpmToM3s(flowLpm), barToPa(dropBar), linearShare);
    }
    case 'valve':
      return openValve;
    case 'check-valve':
      return checkValve;
    default:
      return nothing;
  }
}

/** Bores between 0.1 mm and 10 m, lengths to 1000 km: beyond them a pipe is shut or costs nothing. */
function boundedPipe(lengthM: number, boreMm: number, roughnessMm: number, fittingsK: number) {
  const boreM = Math.min(10, Math.max(1e-4, boreMm / 1000));
  return pipeOf(Math.min(1e6, lengthM), boreM, roughnessMm / 1000, Math.min(1e12, fittingsK));
}

function pumpOf(pump: ResolvedPump): LinePump {
  const points = pump.curve.map((point) => ({
    flowM3s: point.flowLpm === 0 ? 0 : Math.max(LEAST_FLOW_M3S, lpmToM3s(point.flowLpm)),
    headM: Math.min(1e6, point.headM),
  }));
  return {
    id: pump.id,
    heightM: bounded(pump.heightM),
    curve: headCurveOf(points),
    headFactor: 1,
    flowFactor: 1,
    npshRequired: pump.npshRequired && risingHeads(pump.npshRequired),
    drive: true,
  };
}

/** The required head may dip in a data sheet; taken as never falling with flow, so that the pump's pressure never rises. */
function risingHeads(points: readonly { flowLpm: number; headM: number }[]) {
  let most = 0;
  const heads = points.map((point) => {
    most = Math.max(most, Math.min(1e6, point.headM));
    return most;
  });
  return { flows: points.map((point) => lpmToM3s(point.flowLpm)), heads };
}

function controlOf(pump: ResolvedPump): LineControl {
  const { control } = pump;
  switch (control.kind) {
    case 'pressure-switch':
      return {
        kind: control.kind,
        cutInPa: bounded(barToPa(control.cutInBar)),
        cutOutPa: bounded(barToPa(control.cutOutBar)),
      };
    case 'flow-controller':
      return {
        kind: control.kind,
        startPa: bounded(barToPa(control.startBar)),
        minFlowM3s: lpmToM3s(control.minFlowLpm),
      };
    case 'variable-speed':
      return { kind: control.kind, setPa: bounded(barToPa(control.setBar)) };
    case 'none':
      return control;
  }
}

function bypassOf(part: ResolvedOf<'bypass'>, behind: readonly ResolvedPart[]): LineBypass {
  const places = part.around.map((id) => behind.findIndex((other) => other.id === id));
  return {
    id: part.id,
    first: Math.min(...places),
    last: Math.max(...places),
    open: part.open,
    quadratic: resistanceOfFitting(BYPASS_K, FITTING_BORE_M).quadratic,
  };
}

function houseOf(house: ResolvedHouse): LineHouse {
  const { pipe } = house;
  const k = (tap: { flowLpm: number; atBar: number }) =>
    Math.min(1e6, outletK(lpmToM3s(tap.flowLpm), barToPa(tap.atBar)));
  return {
    id: house.id,
    heightM: bounded(house.heightM),
    pipe: boundedPipe(pipe.lengthM, pipe.boreMm, pipe.roughnessMm, pipe.fittingsK),
    lossFactor: 1,
    tap: { k: k(house.tap), kFactor: 1 },
    taps: house.taps.map((tap) => ({
      id: tap.id,
      heightM: bounded(tap.heightM),
      k: k(tap),
      kFactor: 1,
    })),
    leakK: 0,
    need: { open: house.need.open, flowM3s: lpmToM3s(house.need.flowLpm) },
  };
}
