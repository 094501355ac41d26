import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import { waterAt } from '../../shared/hydraulics/water.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { dayNumber, dayOf } from '../../shared/upkeep/days.ts';
import type { Random } from '../seeded.ts';

/** A plant read once a month whose loading is known: the truth is solved on its own line, the readings carry errors. */

export const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** How a cartridge's linear resistance grows: times clean after a share of the time to its failure (0 new, 1 fails). */
export type Growth = (share: number, atFailure: number) => number;

/** The blocking laws at even use (the cake's is a straight line) and two that are none of them. */
export const growths = {
  cake: (x, end) => 1 + (end - 1) * x,
  intermediate: (x, end) => end ** x,
  standard: (x, end) => (1 + (end ** -0.5 - 1) * x) ** -2,
  complete: (x, end) => 1 / (1 + (1 / end - 1) * x),
  squared: (x, end) => 1 + (end - 1) * x * x,
  rooted: (x, end) => 1 + (end - 1) * x ** 0.8,
} satisfies Record<string, Growth>;

export interface Sort {
  readonly growth: Growth;
  readonly control: object;
  readonly divisionBar: number;
  /** a reading is rounded to half a division; or it is off by up to half a division besides */
  readonly sloppy: boolean;
  /** error of a measured flow, by the generator */
  readonly flowError: (random: Random) => number;
  /** share of open rounds with a measured flow */
  readonly flowMeasured: number;
  /** days before the true date on which the forecast is made */
  readonly daysAhead: number;
  /** days from a new cartridge to the failing of the need: between these */
  readonly lastsDays: readonly [number, number];
  /** the filter that loads; the other stays clean */
  readonly loads: 'sed-1' | 'carbon-1';
  /** a fine filter that stays clean stands behind the first between the same gauges */
  readonly beside: boolean;
  /** the record begins with the life of the cartridge before, changed at the limit */
  readonly lifeBefore: boolean;
}

export const plantWith = (
  control: object,
  divisionBar: number,
  fittedOn: string,
  beside = false,
) => {
  const gauge = { kind: 'gauge', rangeBar: 6, classPercent: 1.6, divisionBar };
  return {
    name: 'Fernhollow guesthouse',
    altitudeM: 300,
    waterTempC: 15,
    line: [
      { id: 'tank', kind: 'tank', volumeL: 10000, levelM: 1.4, outletHeightM: 0.1 },
      { id: 'suction', kind: 'suction', lengthM: 4, boreMm: 32, roughnessMm: 0.05, fittingsK: 4 },
      {
        id: 'pump',
        kind: 'pump',
        heightM: 0.3,
        curve: [
          { flowLpm: 0, headM: 46 },
          { flowLpm: 35, headM: 34 },
          { flowLpm: 60, headM: 14 },
        ],
        control,
      },
      { id: 'vessel', kind: 'vessel', volumeL: 24, prechargeBar: 1.8 },
      { id: 'G1', ...gauge, heightM: 0.5 },
      {
        id: 'sed-1',
        kind: 'filter',
        medium: 'sediment',
        clean: { flowLpm: 20, dropBar: 0.1, linearShare: 0.7 },
        fittedOn,
      },
      ...(beside
        ? [
            {
              id: 'sed-2',
              kind: 'filter',
              medium: 'sediment',
              clean: { flowLpm: 20, dropBar: 0.15, linearShare: 0.7 },
              fittedOn,
            },
          ]
        : []),
      { id: 'G2', ...gauge, heightM: 0.5 },
      {
        id: 'carbon-1',
        kind: 'filter',
        medium: 'carbon',
        clean: { flowLpm: 20, dropBar: 0.25, linearShare: 0.7 },
        fittedOn,
      },
      { id: 'G3', ...gauge, heightM: 0.6 },
      { id: 'uv', kind: 'uv', clean: { flowLpm: 20, dropBar: 0.03, linearShare: 0.05 } },
      {
        id: 'house',
        kind: 'house',
        heightM: 3,
        pipe: { lengthM: 25, boreMm: 20, roughnessMm: 0.02, fittingsK: 8 },
        tap: { flowLpm: 12, atBar: 3 },
        need: { open: 2, flowLpm: 14 },
      },
    ],
  };
};

export interface VirtualRecord {
  readonly record: { plant: object; history: object[]; done: object[]; today: string };
  /** the day the plant truly fails its need */
  readonly truth: number;
  readonly today: number;
}

const START = dayNumber('2026-01-05');

/** One record up to `daysAhead` before the true date. */
export function virtualRecord(random: Random, sort: Sort): VirtualRecord {
  const [shortest, longest] = sort.lastsDays;
  const lasts = shortest + random() * (longest - shortest);
  const plant = plantWith(sort.control, sort.divisionBar, dayOf(START), sort.beside);
  const line = lineOf(resolvePlant(parsePlant(plant)).plant);
  const index = line.elements.findIndex((element) => element.id === sort.loads);
  const loadedLine = (times: number, waterC = 15) => ({
    ...line,
    water: waterAt(waterC),
    elements: line.elements.map((element, i) =>
      i === index ? { ...element, linearFactor: times } : element,
    ),
  });
  const { need } = line.house;
  let [low, high] = [1, 1e4];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (solveLine(loadedLine(middle), { open: need.open }).flowM3s >= need.flowM3s) low = middle;
    else high = middle;
  }
  const fitted = sort.lifeBefore ? START + Math.round(lasts) : START;
  const truth = fitted + lasts;
  const today = Math.floor(truth - sort.daysAhead);
  const permitted = 0.016 * 6;
  const offsets: Record<string, number> = {};
  for (const id of ['G1', 'G2', 'G3']) offsets[id] = (2 * random() - 1) * permitted;
  const half = sort.divisionBar / 2;
  const history: object[] = [];
  const read = (points: readonly { after: string; pa: number }[]) =>
    Object.fromEntries(
      ['G1', 'G2', 'G3'].map((id) => {
        const bar = paToBar(points.find((point) => point.after === id)?.pa ?? 0);
        const slip = sort.sloppy ? (2 * random() - 1) * half : 0;
        const shown = Math.round((bar + (offsets[id] ?? 0) + slip) / half) * half;
        return [id, Math.max(0, Number(shown.toFixed(3)))];
      }),
    );
  for (let month = 0; ; month++) {
    const day = Math.round(START + 1 + month * 30.4 + (month > 0 ? 6 * (random() - 0.5) : 0));
    if (day > today) break;
    if (month > 0 && random() < 0.2) continue;
    const since = day >= fitted ? fitted : START;
    const times = sort.growth((day - since) / lasts, high);
    const now = loadedLine(times);
    const open = 1 + Math.floor(3 * random());
    const flowing = solveLine(now, { open });
    const at = dayOf(day);
    history.push({ at, taps: 'closed', bar: read(solveLine(now, 'closed').points) });
    const flowLpm = flowing.flowM3s * 60_000 * (1 + sort.flowError(random));
    const measured = random() < sort.flowMeasured;
    history.push({
      at,
      taps: { open },
      bar: read(flowing.points),
      ...(measured && { flowLpm: Number(flowLpm.toFixed(2)) }),
    });
  }
  const job = sort.loads === 'sed-1' ? 'change-sediment' : 'change-carbon';
  const done = sort.lifeBefore ? [{ at: dayOf(fitted), job, parts: [sort.loads] }] : [];
  return { record: { plant, history, done, today: dayOf(today) }, truth, today };
}
