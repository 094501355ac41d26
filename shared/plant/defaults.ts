import * as table from './defaults-table.ts';
import type { Part, PartOf, PumpControl } from './parts.ts';
import {
  controlOf,
  middlePrecharge,
  resolveControl,
  roundTo,
  type Take,
} from './resolve-control.ts';
import type {
  Clean,
  ResolvedHouse,
  ResolvedPart,
  ResolvedPlant,
  ResolvedPump,
  ResolvedSuction,
} from './resolved.ts';
import type { Plant } from './schema.ts';

export type * from './resolved.ts';

/** One value that was left out of a plant file: whose it is, which field, and what was taken instead. */
export interface Assumed {
  /** id of the part or tap; "plant" for the water's temperature and the altitude */
  readonly part: string;
  /** field as the plant file would name it: `levelM`, `clean.dropBar`, `control.cutInBar` */
  readonly field: string;
  readonly value: unknown;
}

/**
 * Fills every value that a plant leaves out with the middle of the defaults table.
 *
 * @returns the plant with nothing missing, and the list of what was assumed, in the order of the line
 */
export function resolvePlant(plant: Plant): { plant: ResolvedPlant; assumed: Assumed[] } {
  const assumed: Assumed[] = [];
  const taker =
    (part: string): Take =>
    (field, given, middle) => {
      if (given !== undefined) return given;
      assumed.push({ part, field, value: middle });
      return middle;
    };

  const take = taker('plant');
  const waterTempC = take('waterTempC', plant.waterTempC, table.plantDefaults.waterTempC.value);
  const altitudeM = take('altitudeM', plant.altitudeM, table.plantDefaults.altitudeM.value);
  const controls = controlOf(plant);
  const line = plant.line.map((part) => resolvePart(part, taker, controls));
  return { plant: { name: plant.name, altitudeM, waterTempC, line }, assumed };
}

function resolvePart(
  part: Part,
  taker: (id: string) => Take,
  control: PumpControl | null,
): ResolvedPart {
  const take = taker(part.id);
  if (part.kind === 'tank') return resolveTank(part, take);
  if (part.kind === 'pump') return resolvePump(part, take, control);
  if (part.kind === 'house') return resolveHouse(part, taker);
  const heightM = take('heightM', part.heightM, table.heightDefault.value);
  const base = { id: part.id, heightM };
  switch (part.kind) {
    case 'suction':
      return resolveSuction(part, heightM, take);
    case 'vessel':
      return {
        ...base,
        kind: part.kind,
        volumeL: take('volumeL', part.volumeL, table.vesselDefaults.volumeL.value),
        prechargeBar: take('prechargeBar', part.prechargeBar, middlePrecharge(control)),
      };
    case 'valve':
      return {
        ...base,
        kind: part.kind,
        open: take('open', part.open, table.valveDefaults.open.value),
      };
    case 'bypass':
      return {
        ...base,
        kind: part.kind,
        around: part.around,
        open: take('open', part.open, table.bypassDefaults.open.value),
      };
    case 'pressure-reducer':
      return {
        ...base,
        kind: part.kind,
        setBar: take('setBar', part.setBar, table.reducerDefaults.setBar.value),
      };
    case 'relief-valve':
      return {
        ...base,
        kind: part.kind,
        setBar: take('setBar', part.setBar, table.reliefDefaults.setBar.value),
      };
    case 'gauge':
      return resolveGauge(part, heightM, take);
    case 'filter':
      return {
        ...base,
        kind: part.kind,
        medium: part.medium,
        ratingMicron: part.ratingMicron ?? null,
        bleed: part.bleed ?? null,
        clean: resolveClean(part.clean, table.filterDefaults[part.medium].clean, take),
        fittedOn: part.fittedOn ?? null,
        lifeMonths: part.lifeMonths ?? null,
      };
    case 'uv':
      return {
        ...base,
        kind: part.kind,
        ratedFlowLpm: part.ratedFlowLpm ?? null,
        ratedDoseMjCm2: part.ratedDoseMjCm2 ?? null,
        lampFittedOn: part.lampFittedOn ?? null,
        lampLifeH: part.lampLifeH ?? null,
        clean: resolveClean(part.clean, table.uvDefaults.clean, take),
      };
    case 'mains':
      return { ...base, kind: part.kind, ...resolveMains(part, take) };
    default:
      return { ...base, kind: part.kind };
  }
}

function resolveTank(part: PartOf<'tank'>, take: Take): ResolvedPart {
  const { levelM, outletHeightM, uphillOutletHeightM } = table.tankDefaults;
  const usualM = (part.uphill ? uphillOutletHeightM : outletHeightM).value;
  return {
    id: part.id,
    kind: part.kind,
    volumeL: part.volumeL ?? null,
    levelM: take('levelM', part.levelM, levelM.value),
    outletHeightM: take('outletHeightM', part.outletHeightM, usualM),
  };
}

function resolveSuction(part: PartOf<'suction'>, heightM: number, take: Take): ResolvedSuction {
  const middle = table.suctionDefaults;
  const given = part.fittingsK;
  const strainer =
    given === undefined ? take('strainer', part.strainer, false) : part.strainer === true;
  const footValve =
    given === undefined ? take('footValve', part.footValve, false) : part.footValve === true;
  const middleK =
    middle.fittingsK.value +
    (strainer ? middle.strainerK : 0) +
    (footValve ? middle.footValveK : 0);
  return {
    id: part.id,
    kind: part.kind,
    heightM,
    lengthM: take('lengthM', part.lengthM, middle.lengthM.value),
    boreMm: take('boreMm', part.boreMm, middle.boreMm.value),
    roughnessMm: take('roughnessMm', part.roughnessMm, middle.roughnessMm.value),
    fittingsK: take('fittingsK', given, middleK),
    strainer,
    footValve,
  };
}

function resolvePump(part: PartOf<'pump'>, take: Take, control: PumpControl | null): ResolvedPump {
  const middle = table.pumpDefaults;
  return {
    id: part.id,
    kind: part.kind,
    heightM: take('heightM', part.heightM, middle.heightM.value),
    submersible: take('submersible', part.submersible, middle.submersible.value),
    checkValve: part.checkValve ?? null,
    curve: take('curve', part.curve, middle.curve.value),
    npshRequired: take<ResolvedPump['npshRequired']>('npshRequired', part.npshRequired, null),
    control: resolveControl(part.control, control, take),
  };
}

function resolveGauge(part: PartOf<'gauge'>, heightM: number, take: Take): ResolvedPart {
  const middle = table.gaugeDefaults;
  const rangeBar = take('rangeBar', part.rangeBar, middle.rangeBar.value);
  return {
    id: part.id,
    kind: part.kind,
    heightM,
    rangeBar,
    classPercent: take('classPercent', part.classPercent, middle.classPercent.value),
    divisionBar: take('divisionBar', part.divisionBar, rangeBar / middle.divisionsInRange),
  };
}

function resolveMains(part: PartOf<'mains'>, take: Take) {
  const middle = table.mainsDefaults;
  const changeover = take('changeover', part.changeover, middle.changeover.value);
  const automatic = changeover === true || changeover === 'automatic';
  return {
    changeover: automatic ? ('automatic' as const) : ('manual' as const),
    pressureBar: take('pressureBar', part.pressureBar, middle.pressureBar.value),
  };
}

function resolveClean(
  given:
    | {
        flowLpm?: number | undefined;
        dropBar?: number | undefined;
        linearShare?: number | undefined;
      }
    | undefined,
  middle: { flowLpm: table.Default; dropBar: table.Default; linearShare: table.Default },
  take: Take,
): Clean {
  const linearShare = take('clean.linearShare', given?.linearShare, middle.linearShare.value);
  const flowLpm = take('clean.flowLpm', given?.flowLpm, middle.flowLpm.value);
  // A drop left out is known at the table's flow; at another flow it follows the two-term law.
  const ratio = flowLpm / middle.flowLpm.value;
  const scale = linearShare * ratio + (1 - linearShare) * ratio * ratio;
  const dropBar = take('clean.dropBar', given?.dropBar, middle.dropBar.value * scale);
  return { flowLpm, dropBar, linearShare };
}

function resolveHouse(part: PartOf<'house'>, taker: (id: string) => Take): ResolvedHouse {
  const take = taker(part.id);
  const middle = table.houseDefaults;
  const heightM = take('heightM', part.heightM, middle.heightM.value);
  const pipe = {
    lengthM: take('pipe.lengthM', part.pipe?.lengthM, middle.pipe.lengthM.value),
    boreMm: take('pipe.boreMm', part.pipe?.boreMm, middle.pipe.boreMm.value),
    roughnessMm: take('pipe.roughnessMm', part.pipe?.roughnessMm, middle.pipe.roughnessMm.value),
    fittingsK: take('pipe.fittingsK', part.pipe?.fittingsK, middle.pipe.fittingsK.value),
  };
  const tap = {
    flowLpm: take('tap.flowLpm', part.tap?.flowLpm, middle.tap.flowLpm.value),
    atBar: take('tap.atBar', part.tap?.atBar, middle.tap.atBar.value),
  };
  const taps = (part.taps ?? []).map((named) => {
    const takeTap = taker(named.id);
    return {
      id: named.id,
      heightM: takeTap('heightM', named.heightM, heightM),
      flowLpm: takeTap('flowLpm', named.flowLpm, tap.flowLpm),
      atBar: takeTap('atBar', named.atBar, tap.atBar),
    };
  });
  const open = take('need.open', part.need?.open, middle.need.open.value);
  const flowLpm = take(
    'need.flowLpm',
    part.need?.flowLpm,
    roundTo(open * tap.flowLpm * middle.need.shareOfTapFlow, 6),
  );
  return { id: part.id, kind: part.kind, heightM, pipe, tap, taps, need: { open, flowLpm } };
}
