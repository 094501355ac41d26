import type { OpenTaps } from '../../shared/hydraulics/line.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import { type Assumed, resolvePlant } from '../../shared/plant/defaults.ts';
import * as table from '../../shared/plant/defaults-table.ts';
import type { Plant } from '../../shared/plant/schema.ts';

/** What a clean plant shows after one part: gauge pressure at the part's own height, with a 95 % interval. */
export interface CleanPoint {
  readonly lowBar: number;
  readonly bar: number;
  readonly highBar: number;
}

/**
 * A clean plant with these taps, part by part in the order of the line. The interval holds what the plant leaves open
 * (each value moved to both ends of its spread, root sum of squares) and, while the pump stops and starts, the whole
 * swing between the two pressures.
 */
export function cleanBand(plant: Plant, open: OpenTaps): CleanPoint[] {
  const { assumed } = resolvePlant(plant);
  const middle = solved(plant, open);
  const low = middle.bar.map(() => 0);
  const high = middle.bar.map(() => 0);
  for (const one of assumed) {
    for (const moved of movedPlants(plant, one)) {
      solved(moved, open).bar.forEach((bar, i) => {
        const change = bar - (middle.bar[i] ?? 0);
        if (change < 0) low[i] = (low[i] ?? 0) + change ** 2;
        else high[i] = (high[i] ?? 0) + change ** 2;
      });
    }
  }
  return middle.bar.map((bar, i) => ({
    bar,
    lowBar: Math.max(0, bar - Math.sqrt(low[i] ?? 0) - middle.swingBar),
    highBar: bar + Math.sqrt(high[i] ?? 0) + middle.swingBar,
  }));
}

function solved(
  plant: Plant,
  open: OpenTaps,
): { readonly bar: number[]; readonly swingBar: number } {
  const { cycle, points } = solveLine(lineOf(resolvePlant(plant).plant), open);
  const byPart = new Map(points.map(({ after, pa }) => [after, paToBar(pa)]));
  let before = 0;
  const bar = plant.line.map((part) => {
    before = byPart.get(part.id) ?? before;
    return before;
  });
  return { bar, swingBar: cycle ? paToBar(cycle.highPa - cycle.lowPa) / 2 : 0 };
}

/** The plant with one value left out set to both ends of its spread; none where no spread is known. */
function movedPlants(plant: Plant, { part, field, value }: Assumed): Plant[] {
  const kind = plant.line.find(({ id }) => id === part);
  if (field === 'curve') return movedCurves(plant, part, value);
  if (typeof value !== 'number') return [];
  const place = kind === undefined ? (part === 'plant' ? 'plant' : 'tap') : kind.kind;
  const spread = spreadOf(kind?.kind === 'filter' ? kind.medium : place, field);
  return endsOf(value, spread).map((end) => withValue(plant, part, field, end));
}

function movedCurves(plant: Plant, part: string, value: unknown): Plant[] {
  const points = value as readonly { flowLpm: number; headM: number }[];
  const { curveHead, curveFlow } = table.pumpDefaults;
  const scaled = (flow: number, head: number): Plant =>
    withValue(
      plant,
      part,
      'curve',
      points.map(({ flowLpm, headM }) => ({ flowLpm: flowLpm * flow, headM: headM * head })),
    );
  return [
    ...endsOf(1, curveHead).map((head) => scaled(1, head)),
    ...endsOf(1, curveFlow).map((flow) => scaled(flow, 1)),
  ];
}

function endsOf(value: number, spread: table.Spread): number[] {
  switch (spread.kind) {
    case 'factor':
      return [value / spread.by, value * spread.by];
    case 'plusMinus':
      return [value - spread.by, value + spread.by];
    case 'share':
      return [value * (1 - spread.by), value * (1 + spread.by)];
    case 'range':
      return [spread.low, spread.high];
    case 'none':
      return [];
  }
}

const spreads: Readonly<Record<string, unknown>> = {
  plant: table.plantDefaults,
  tank: table.tankDefaults,
  suction: table.suctionDefaults,
  pump: { control: table.controlDefaults },
  vessel: {
    ...table.vesselDefaults,
    prechargeBar: { spread: table.vesselDefaults.prechargeSpread },
  },
  uv: table.uvDefaults,
  'pressure-reducer': table.reducerDefaults,
  mains: table.mainsDefaults,
  house: table.houseDefaults,
  ...table.filterDefaults,
};

function spreadOf(place: string, field: string): table.Spread {
  let here: unknown = spreads[place];
  for (const step of field.split('.')) here = (here as Record<string, unknown> | undefined)?.[step];
  return (here as { spread?: table.Spread } | undefined)?.spread ?? { kind: 'none' };
}

function withValue(plant: Plant, part: string, field: string, value: unknown): Plant {
  const path = field.split('.');
  if (part === 'plant') return put(plant, path, value) as Plant;
  return {
    ...plant,
    line: plant.line.map((each) => {
      if (each.id !== part) return each;
      const moved = put(each, path, value) as typeof each;
      // a control's value set alone needs its kind, which the defaults would have given
      return moved.kind === 'pump' && path[0] === 'control' && moved.control?.kind === undefined
        ? each
        : moved;
    }),
  };
}

function put(target: object, path: readonly string[], value: unknown): object {
  const [first, ...rest] = path;
  if (first === undefined) return target;
  const inner = (target as Record<string, unknown>)[first];
  return {
    ...target,
    [first]: rest.length === 0 ? value : put((inner ?? {}) as object, rest, value),
  };
}
