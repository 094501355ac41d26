import type { Part, PumpControl } from '../../shared/plant/parts.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { Random } from './random.ts';

/** A virtual plant twice: as it is, and as its owner can describe it. */
export interface DrawnPlant {
  readonly truth: Plant;
  readonly told: Plant;
}

/** A field that is known (the same in both) or not (left out of what is told). */
type Fields = Record<string, unknown>;
interface Drawn {
  readonly truth: Part;
  readonly told: Part;
}

export const TODAY = '2026-11-25';
const DAY_MS = 86_400_000;

/** The day so many days before today. */
export const daysAgo = (days: number): string =>
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

const whole = (p: Part): Drawn => ({ truth: p, told: p });

/**
 * A part whose fields are each known with the chance given, evenly drawn where known; where not, drawn from a narrower
 * middle and left out of what is told.
 */
function part(
  random: Random,
  fixed: Fields,
  fields: Record<string, readonly [middle: number, known: number, low: number, high: number]>,
): Drawn {
  const truth: Fields = { ...fixed };
  const told: Fields = { ...fixed };
  for (const [name, [middle, known, low, high]] of Object.entries(fields)) {
    if (random.chance(known)) {
      truth[name] = rounded(random.between(low, high));
      told[name] = truth[name];
    } else truth[name] = rounded(middle * Math.exp(random.normal(0.2)));
  }
  return { truth: truth as Part, told: told as Part };
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;

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

function pumpParts(random: Random): Drawn[] {
  const curveKnown = random.chance(0.75);
  const headM = curveKnown ? random.between(34, 58) : 45 * Math.exp(random.normal(0.07));
  const flowLpm = curveKnown ? random.between(26, 50) : 33 * Math.exp(random.normal(0.11));
  const curve = [
    { flowLpm: 0, headM: rounded(headM) },
    { flowLpm: rounded(flowLpm), headM: rounded(0.75 * headM) },
    { flowLpm: rounded(1.75 * flowLpm), headM: rounded(0.27 * headM) },
  ];
  const npshRequired = random.chance(0.4)
    ? [{ flowLpm: rounded(flowLpm), headM: rounded(random.between(2, 4)) }]
    : undefined;
  const control = drawControl(random, headM);
  const hasVessel = control.truth.kind !== 'flow-controller';
  const base = {
    id: 'pump',
    kind: 'pump' as const,
    heightM: 0.3,
    checkValve: random.chance(0.85),
  };
  const pump: Drawn = {
    truth: { ...base, curve, control: control.truth, ...(npshRequired && { npshRequired }) },
    told: {
      ...base,
      control: control.told,
      ...(curveKnown && { curve }),
      ...(npshRequired && { npshRequired }),
    },
  };
  if (!hasVessel) return [pump];
  const { truth: kind } = control;
  const startBar =
    kind.kind === 'pressure-switch'
      ? (kind.cutInBar ?? 2)
      : kind.kind === 'variable-speed'
        ? (kind.setBar ?? 3.5) - 1
        : 2;
  const vessel = part(
    random,
    { id: 'vessel', kind: 'vessel' },
    { volumeL: kind.kind === 'variable-speed' ? [8, 0.8, 4, 20] : [24, 0.8, 18, 80] },
  );
  const prechargeBar = rounded(startBar - random.between(0.12, 0.28));
  const setAt = random.chance(0.4);
  return [
    pump,
    {
      truth: { ...vessel.truth, prechargeBar } as Part,
      told: { ...vessel.told, ...(setAt && { prechargeBar }) } as Part,
    },
  ];
}

function drawControl(random: Random, headM: number): { truth: PumpControl; told: PumpControl } {
  const topBar = headM * 0.098;
  const known = random.chance(0.75);
  const off = () => random.between(-0.15, 0.15);
  switch (
    random.weighted([
      ['pressure-switch', 48],
      ['flow-controller', 37],
      ['variable-speed', 15],
    ] as const)
  ) {
    case 'pressure-switch': {
      const cutOutBar = known
        ? Math.min(random.between(2.9, 4), topBar * 0.86)
        : Math.min(3.5 + off(), topBar * 0.9);
      const cutInBar = known ? cutOutBar - random.between(1.1, 1.6) : cutOutBar - 1.5 + off();
      const truth = {
        kind: 'pressure-switch' as const,
        cutInBar: rounded(cutInBar),
        cutOutBar: rounded(cutOutBar),
      };
      return { truth, told: known ? truth : { kind: 'pressure-switch' } };
    }
    case 'flow-controller': {
      const startBar = known ? random.between(1.1, Math.min(2, topBar * 0.5)) : 1.5 + off();
      const truth = {
        kind: 'flow-controller' as const,
        startBar: rounded(startBar),
        minFlowLpm: known ? rounded(random.between(1, 2)) : 1.5,
      };
      return { truth, told: known ? truth : { kind: 'flow-controller' } };
    }
    case 'variable-speed': {
      const setBar = known
        ? random.between(2.5, topBar * 0.78)
        : Math.min(3.5 + off(), topBar * 0.85);
      const truth = { kind: 'variable-speed' as const, setBar: rounded(setBar) };
      return { truth, told: known ? truth : { kind: 'variable-speed' } };
    }
  }
}

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
