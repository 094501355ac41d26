import type { Plant } from '../../shared/plant/schema.ts';
import { pumpParts } from './draw-pump.ts';
import { type Drawn, part, rounded, whole } from './drawn-part.ts';
import type { Random } from './random.ts';

/** A virtual plant twice: as it is, and as its owner can describe it. */
export interface DrawnPlant {
  readonly truth: Plant;
  readonly told: Plant;
}

export const TODAY = '2026-11-25';
const DAY_MS = 86_400_000;

/** The day so many days before today. */
const daysAgo = (days: number): string =>
  new Date(Date.parse(TODAY) - Math.round(days) * DAY_MS).toISOString().slice(0, 10);

/** Draws a plant with so many gauges. All ranges are this generator's own (common practice). */
export function drawPlant(random: Random, gauges: number): DrawnPlant {
  const gravity = random.chance(0.06);
  const parts: Drawn[] = [tank(random, gravity)];
  if (!gravity) parts.push(suction(random), ...pumpParts(random));
  parts.push(whole({ id: 'v1', kind: 'valve', open: true }));
  if (random.chance(0.06)) {
    parts.push(
      part(random, { id: 'reducer', kind: 'pressure-reducer' }, { setBar: [2.5, 0.8, 2, 3] }),
    );
  }
  const stages = treatment(random);
  parts.push(...withGauges(random, stages, gauges));
  if (stages.length > 1 && random.chance(0.12)) {
    const around = stages
      .filter(({ truth }) => truth.kind === 'filter')
      .map(({ truth }) => truth.id);
    if (around.length > 0) parts.push(whole({ id: 'bypass', kind: 'bypass', around, open: false }));
  }
  parts.push(house(random, gravity));
  const common = {
    waterTempC: Math.round(random.between(4, 22)),
    altitudeM: Math.round(random.between(0, 1200)),
  };
  const knows = random.chance(0.6);
  return {
    truth: { name: 'virtual', ...common, line: parts.map((p) => p.truth) },
    told: { name: 'virtual', ...(knows && common), line: parts.map((p) => p.told) },
  };
}

function tank(random: Random, gravity: boolean): Drawn {
  const fixed = {
    id: 'tank',
    kind: 'tank' as const,
    volumeL: random.pick([2000, 5000, 10000, 20000]),
    outletHeightM: gravity ? rounded(random.between(8, 16)) : 0.1,
  };
  // The level is asked in the interview; the plant's description does not hold it.
  return { truth: { ...fixed, levelM: rounded(random.between(0.3, 2.2)) }, told: fixed };
}

const suction = (random: Random): Drawn =>
  part(
    random,
    { id: 'suction', kind: 'suction', strainer: random.chance(0.7), footValve: random.chance(0.2) },
    { lengthM: [3, 0.7, 1, 6], boreMm: [32, 0.7, 25, 40] },
  );

/** Sediment coarse to fine, carbon, sometimes a membrane or softener, the lamp last (now and then before the carbon). */
function treatment(random: Random): Drawn[] {
  const numbered = (n: number, make: (i: number) => Drawn) =>
    Array.from({ length: n }, (_, i) => make(i + 1));
  const sediment = numbered(
    random.weighted([
      [1, 5],
      [2, 4],
      [3, 2],
    ] as const),
    (i) => filter(random, `sed-${i}`, 'sediment', 0.1, 6),
  );
  const carbon = numbered(
    random.weighted([
      [0, 3],
      [1, 6],
      [2, 2],
    ] as const),
    (i) => filter(random, `carbon-${i}`, 'carbon', 0.25, 12),
  );
  const more = [
    ...(random.chance(0.07) ? [filter(random, 'membrane', 'membrane', 0.5, 24)] : []),
    ...(random.chance(0.07) ? [filter(random, 'softener', 'softener', 0.3, 60)] : []),
  ];
  if (!random.chance(0.6)) return [...sediment, ...carbon, ...more];
  const days = random.between(10, 520);
  const known = random.chance(0.5);
  const uv: Drawn = {
    truth: {
      id: 'uv',
      kind: 'uv',
      lampFittedOn: daysAgo(days),
      clean: { flowLpm: 20, dropBar: 0.03 },
    },
    told: { id: 'uv', kind: 'uv', ...(known && { lampFittedOn: daysAgo(days) }) },
  };
  return random.chance(0.85)
    ? [...sediment, ...carbon, ...more, uv]
    : [...sediment, uv, ...carbon, ...more];
}

function filter(
  random: Random,
  id: string,
  medium: 'sediment' | 'carbon' | 'membrane' | 'softener',
  middleBar: number,
  lifeMonths: number,
): Drawn {
  const known = random.chance(0.6);
  const dropBar = rounded(middleBar * Math.exp(random.normal(known ? 0.4 : 0.3)));
  const days = random.between(0.03, 1.5) * lifeMonths * 30.4;
  const dated = random.chance(0.4);
  const fixed = { id, kind: 'filter' as const, medium, lifeMonths };
  const clean = { flowLpm: 20, dropBar };
  return {
    truth: { ...fixed, clean, fittedOn: daysAgo(days) },
    told: { ...fixed, ...(known && { clean }), ...(dated && { fittedOn: daysAgo(days) }) },
  };
}

/** One gauge stands before the treatment or behind it; more split it evenly, first and last place taken. */
function withGauges(random: Random, stages: readonly Drawn[], count: number): Drawn[] {
  const places = new Set<number>();
  if (count === 1) places.add(random.chance(0.6) ? 0 : stages.length);
  else if (count > 1) {
    places.add(0).add(stages.length);
    const between = Array.from({ length: stages.length - 1 }, (_, i) => i + 1);
    while (places.size < count && between.length > 0) {
      const at = random.pick(between);
      between.splice(between.indexOf(at), 1);
      places.add(at);
    }
  }
  const rangeBar = random.pick([6, 10]);
  const classPercent = random.pick([1, 1.6, 2.5, 4]);
  const line: Drawn[] = [];
  let n = 0;
  for (let i = 0; i <= stages.length; i++) {
    if (places.has(i)) {
      n++;
      line.push(
        whole({
          id: `G${n}`,
          kind: 'gauge',
          rangeBar,
          classPercent,
          divisionBar: rangeBar / 50,
          heightM: 0.5,
        }),
      );
    }
    const stage = stages[i];
    if (stage) line.push(stage);
  }
  return line;
}

function house(random: Random, gravity: boolean): Drawn {
  const heightM = rounded(gravity ? random.between(0, 2) : random.between(1, 5));
  const knows = random.chance(0.5);
  const pipe = {
    lengthM: rounded(random.between(18, 32)),
    boreMm: knows ? random.pick([16, 20, 25]) : rounded(20 * Math.exp(random.normal(0.06))),
  };
  const tap = { flowLpm: rounded(12 * Math.exp(random.normal(knows ? 0.2 : 0.13))), atBar: 3 };
  return {
    truth: { id: 'house', kind: 'house', heightM, pipe, tap },
    told: { id: 'house', kind: 'house', heightM, ...(knows && { pipe, tap }) },
  };
}
