import { gaugeBeforeValve } from '../case/places.ts';
import { chlorineDose } from '../hydraulics/chlorine.ts';
import { barToPa, STANDARD_ATMOSPHERE_PA } from '../hydraulics/units.ts';
import { waterInVesselM3 } from '../hydraulics/vessel.ts';

import type { Part, Plant } from '../plant/schema.ts';
import { pressureText, type Units, volumeText } from '../ruleset/figures.ts';
import type { plantPressures } from './schema.ts';
import type { WorkWords } from './words.ts';

/** What a hole says: which of its wordings, and the value or id in it. */
interface Hole {
  readonly way: string;
  readonly value?: number | string;
  readonly id?: string;
  readonly medium?: string;
}

/** What a plant is set to, in bar; undefined where the plant does not say. */
export type PlantPressures = Readonly<
  Partial<Record<(typeof plantPressures)[number], number | undefined>>
>;

export function pressuresOf({ line }: Plant): PlantPressures {
  const pump = line.find((part) => part.kind === 'pump');
  const vessel = line.find((part) => part.kind === 'vessel');
  const control = pump?.control;
  const bySwitch = control?.kind === 'pressure-switch' ? control : undefined;
  const cutIn = bySwitch?.cutInBar;
  return {
    cutIn,
    cutOut: bySwitch?.cutOutBar,
    gas: cutIn === undefined ? vessel?.prechargeBar : Math.max(0, cutIn - GAS_UNDER_CUT_IN_BAR),
  };
}

/** Chlorine in a tank (enHealth, Guidance on use of rainwater tanks), and in pipes that are open (South Dakota DOH). */
const TANK_MG_PER_L = 5;
const LINE_MG_PER_L = 50;
/** What a filter housing and a UV chamber hold, rather more than less: large housings of the trade (common practice). */
const HOUSING_L = 4;
const CHAMBER_L = 5;
/** Doses are told in steps that a household can measure, rounded up: too little disinfects nothing. */
const DOSE_STEP_ML = 10;

/** A vessel's gas stands this much under the pressure at which the pump starts (common practice), whatever it was sold with. */
const GAS_UNDER_CUT_IN_BAR = 0.2;

/** Household bleach as the steps speak of it: grams of available chlorine in 100 mL. */
const BLEACH_PERCENT = 4;

/**
 * The holes of a job's steps filled from the plant: names of part, valves and gauge, ratings, pressures, litres, doses.
 * What the plant does not say gets the wording for "unknown", never a middle value.
 *
 * @param index where in the line the job works
 * @param by who does it, by trade
 * @param units the person's own; figures of the plant are said in these
 */
export function holesOf(
  plant: Plant,
  index: number,
  by: string,
  words: WorkWords,
  units: Units,
): Record<string, string> {
  const holes = { ...partHoles(plant, index), ...figureHoles(plant, units), trade: { way: by } };
  const said = (name: string, hole: Hole): string => {
    const ways = words.holes[name] ?? {};
    const pattern = ways[hole.way] ?? ways.other ?? ways.unknown ?? `{${name}}`;
    const medium = words.holes.medium?.[hole.medium ?? ''] ?? '';
    return pattern
      .replace('{id}', hole.id ?? '')
      .replace('{value}', hole.value === undefined ? '' : String(hole.value))
      .replace('{medium}', medium);
  };
  return Object.fromEntries(Object.entries(holes).map(([name, hole]) => [name, said(name, hole)]));
}

function partHoles(plant: Plant, index: number): Record<string, Hole> {
  const { line } = plant;
  const part = line[index];
  const pumpAt = line.findIndex(({ kind }) => kind === 'pump');
  const isValve = (each: Part) => each.kind === 'valve';
  const before = line
    .slice(0, index)
    .findLast((each, i) => isValve(each) && (index <= pumpAt || i > pumpAt));
  const cock = pumpAt < 0 ? undefined : line.slice(0, Math.min(index, pumpAt)).findLast(isValve);
  const far = line.slice(Math.max(index, pumpAt) + 1).find(isValve);
  const gauge = nearestGauge(line, index);
  const supply =
    index > pumpAt && before
      ? { way: 'valve', id: before.id }
      : { way: 'tank-cock', id: cock?.id ?? '' };
  const filter = part?.kind === 'filter' ? part : undefined;
  const rating = filter?.ratingMicron;
  const tested = gaugeBeforeValve(plant);
  return {
    part: { way: filter?.medium ?? part?.kind ?? 'other', id: part?.id ?? '' },
    supply,
    far: far ? { way: 'known', id: far.id } : { way: 'unknown' },
    gauge: gauge ? { way: 'known', id: gauge.id } : { way: 'unknown' },
    testedValve: tested ? { way: 'known', id: tested.valve } : { way: 'unknown' },
    testedGauge: tested ? { way: 'known', id: tested.gauge } : { way: 'unknown' },
    lamp: part?.kind === 'uv' ? { way: 'known', id: part.id } : { way: 'unknown' },
    micron: figure(rating),
    cartridge: { ...figure(rating), ...(filter && { medium: filter.medium }) },
  };
}

function figureHoles(plant: Plant, units: Units): Record<string, Hole> {
  const { line } = plant;
  const { gas, cutIn, cutOut } = pressuresOf(plant);
  const find = <K extends Part['kind']>(kind: K) =>
    line.find((part): part is Extract<Part, { kind: K }> => part.kind === kind);
  const vessel = find('vessel');
  const tankL = find('tank')?.volumeL;
  const pipe = find('house')?.pipe;
  const holding = line.reduce(
    (sum, { kind }) => sum + (kind === 'filter' ? HOUSING_L : kind === 'uv' ? CHAMBER_L : 0),
    0,
  );
  const lineL =
    pipe?.lengthM !== undefined && pipe.boreMm !== undefined
      ? holding + (Math.PI / 4) * (pipe.boreMm / 1000) ** 2 * pipe.lengthM * 1000
      : undefined;
  const dose = (litres: number | undefined, mgPerLitre: number): Hole => {
    if (!litres) return figure(undefined);
    const { millilitres } = chlorineDose(litres, BLEACH_PERCENT, mgPerLitre);
    return figure(DOSE_STEP_ML * Math.ceil(millilitres / DOSE_STEP_ML));
  };
  const bar = (value: number | undefined): Hole =>
    figure(value === undefined ? undefined : pressureText(value, units));
  // from full pressure down to empty; litres in, litres out
  const full = vessel?.volumeL;
  const known = vessel?.prechargeBar;
  const litres =
    full !== undefined && cutOut !== undefined && known !== undefined && cutOut > known
      ? waterInVesselM3(
          { volumeM3: full, prechargePa: barToPa(known) },
          barToPa(cutOut),
          STANDARD_ATMOSPHERE_PA,
        )
      : undefined;
  return {
    litres: figure(litres === undefined ? undefined : volumeText(litres, units)),
    gas: bar(gas),
    cutIn: bar(cutIn),
    cutOut: bar(cutOut),
    reducerSet: bar(find('pressure-reducer')?.setBar),
    doseTank: dose(tankL, TANK_MG_PER_L),
    doseLine: dose(lineL, LINE_MG_PER_L),
  };
}

const figure = (value: number | string | undefined): Hole =>
  value === undefined ? { way: 'unknown' } : { way: 'known', value };

function nearestGauge(line: readonly Part[], index: number): Part | undefined {
  const away = (part: Part) => Math.abs(line.indexOf(part) - index);
  return line.filter((part) => part.kind === 'gauge').toSorted((a, b) => away(a) - away(b))[0];
}
