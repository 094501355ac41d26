import type { Audience } from '../../shared/case/answer.ts';
import type { Taps } from '../../shared/case/taps.ts';
import { heardClosed, heardOpen } from './heard.ts';
import {
  cycleTimes,
  emptyHousing,
  type Measure,
  precharge,
  pressureHold,
  shutOff,
  tankLevel,
  vacuum,
} from './measurements.ts';
import type { Random } from './random.ts';
import { bucket, readGauges } from './readings.ts';
import type { World } from './world.ts';

/** What was asked, as the tool asks it. */
export interface Asked {
  readonly question: string;
  readonly ask: { readonly taps: Taps; readonly gauges: readonly string[] } | null;
}

/** How often an answer is "I don't know", and how often it is wrong. */
const UNKNOWN = 0.06;
const WRONG = 0.02;

/** What each can answer at all, as a chance; not named: always. A caller cannot open, drain or measure much. */
const ABLE: Record<Audience, Record<string, number>> = {
  technician: { 'water-test': 0.5 },
  householder: {
    'suction-vacuum': 0,
    'strainer-look': 0.2,
    precharge: 0.35,
    'shut-off': 0.6,
    'pressure-hold': 0.8,
    'pressure-hold-isolated': 0.6,
    'empty-housing': 0.7,
    'water-test': 0.25,
    'cycle-times': 0.9,
    flow: 0.9,
  },
  agent: {
    'suction-vacuum': 0,
    'strainer-look': 0,
    precharge: 0.05,
    'shut-off': 0.2,
    'pressure-hold': 0.4,
    'pressure-hold-isolated': 0.2,
    'empty-housing': 0.1,
    'water-test': 0.1,
    'cycle-times': 0.7,
    flow: 0.7,
    readings: 0.85,
    'tank-level': 0.8,
    'aerator-compare': 0.6,
    'valves-look': 0.8,
  },
};

const measured: Record<string, Measure> = {
  'shut-off': shutOff,
  'pressure-hold': pressureHold(false),
  'pressure-hold-isolated': pressureHold(true),
  precharge,
  'cycle-times': cycleTimes,
  'suction-vacuum': vacuum,
  'empty-housing': emptyHousing,
  'tank-level': tankLevel,
  flow: bucket,
  'pump-open': heardOpen,
  'pump-closed': heardClosed,
};

/** Answers one question: truly but noisily, now and then not at all, now and then wrong. */
export function answer(world: World, asked: Asked, audience: Audience): unknown {
  const { random } = world;
  const { question } = asked;
  // Everybody can say what they called about, and whether there is danger.
  if (question === 'complaint') return world.complaint;
  if (question === 'danger') return [];
  const unable = !random.chance(ABLE[audience][question] ?? 1);
  if (unable || random.chance(UNKNOWN)) return unknown(asked, world);
  const value = truthful(world, asked);
  if (value === null) return unknown(asked, world);
  return random.chance(WRONG) ? wrong(world, question, value) : value;
}

function unknown({ question, ask }: Asked, world: World): unknown {
  if (question !== 'readings') return 'unknown';
  const gauges = ask?.gauges ?? gaugeIds(world);
  return {
    taps: ask?.taps ?? 'closed',
    bar: Object.fromEntries(gauges.map((id) => [id, 'unknown'])),
  };
}

const gaugeIds = ({ plant }: World): string[] =>
  plant.line.flatMap((p) => (p.kind === 'gauge' ? [p.id] : []));

function truthful(world: World, { question, ask }: Asked): unknown {
  const { random, signs, noticed, faults, tables, plant } = world;
  const measure = measured[question];
  if (measure) return measure(world, random);
  const main =
    faults.sought.length > 0
      ? random.pick(faults.sought).cause
      : (faults.overdue[0]?.cause ?? null);
  switch (question) {
    case 'household':
      return tables.questions[question]?.answers.filter(() => random.chance(0.08)) ?? [];
    case 'smell':
    case 'taste':
    case 'look':
      return noticed[question];
    case 'onset': {
      const onset = signs.oneOf(question, main);
      return onset === 'after-work' && faults.recentWork.length === 0
        ? signs.oneOf(question, main)
        : onset;
    }
    case 'recent-work':
      return faults.recentWork;
    case 'readings':
      return readGauges(world, ask?.taps ?? 'closed', ask?.gauges ?? gaugeIds(world), random);
    case 'filters-changed':
      return datesOf(world, random);
    case 'lamp-hours': {
      const uv = plant.line.find((p) => p.kind === 'uv');
      if (uv?.kind !== 'uv' || !uv.lampFittedOn || random.chance(0.4)) return null;
      return Math.round(
        ((Date.parse('2026-11-25') - Date.parse(uv.lampFittedOn)) / 3_600_000) *
          random.between(0.98, 1),
      );
    }
    case 'water-test':
      return waterTest(world, random);
    default: {
      const table = tables.questions[question];
      if (table?.combine === 'one of') return signs.oneOf(question, main);
      if (table?.combine === 'worst') return signs.worst(question);
      return null;
    }
  }
}

/** People remember the date of a change about two times in three, to within some days. */
function datesOf({ plant }: World, random: Random): unknown {
  const dates: Record<string, string> = {};
  for (const part of plant.line) {
    if (part.kind === 'filter' && part.fittedOn && random.chance(0.65))
      dates[part.id] = part.fittedOn;
  }
  return Object.keys(dates).length > 0 ? dates : null;
}

function waterTest({ signs }: World, random: Random): unknown {
  const has = (item: string) => random.chance(signs.chanceOf('water-test', item));
  return {
    ph: has('ph-low') ? 6.1 : has('ph-high') ? 9.7 : 7.3,
    turbidityNtu: has('turbid') ? 4 : 0.4,
    ironMgL: has('iron-high') ? 0.6 : 0.05,
    copperMgL: has('copper-high') ? 1.6 : 0.1,
    freeChlorineMgL: has('chlorine-high') ? 3 : has('chlorine-present') ? 0.5 : 0,
    eColi: has('e-coli-present') ? 'present' : 'absent',
  };
}

/** A wrong answer: another choice, another item, a number misjudged by half or double. */
function wrong({ tables, random }: World, question: string, value: unknown): unknown {
  const answers = tables.questions[question]?.answers ?? [];
  if (typeof value === 'string' && answers.length > 1) {
    return random.pick(answers.filter((a) => a !== value));
  }
  if (Array.isArray(value)) return [];
  if (question === 'flow') {
    const { litres, seconds } = value as { litres: number; seconds: number };
    return { litres, seconds: seconds * (random.chance(0.5) ? 2 : 0.5) };
  }
  if (question === 'readings') {
    const reading = value as { bar: Record<string, number> };
    const [id] = Object.keys(reading.bar);
    if (!id) return value;
    return { ...reading, bar: { ...reading.bar, [id]: Math.max(0, (reading.bar[id] ?? 0) - 1) } };
  }
  return value;
}
