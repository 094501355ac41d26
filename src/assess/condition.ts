import type { Element, Line } from '../../shared/hydraulics/line/types.ts';
import { lineOf } from '../../shared/hydraulics/line.ts';
import { barToPa, lpmToM3s } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { ageShare } from './ages.ts';
import type { Fault } from './draw-faults.ts';
import type { Random } from './random.ts';
import { tapLpm } from './running.ts';

/** How one gauge errs: what it keeps, what grows with the reading, and where its pointer sticks. */
export interface GaugeError {
  readonly offsetBar: number;
  readonly gain: number;
  readonly stuckBar: number | null;
}

/** A plant as it really is, faults and small neglects in it. Changed while faults are put in, then only read. */
export interface Condition {
  line: Line;
  readonly clean: Line;
  /** the pump gives nothing, and what is then heard */
  gives: 'silent' | 'hums' | 'runs-dry' | null;
  neverStops: boolean;
  /** pressure swings by this share while running */
  unsteadyShare: number;
  leakLpm: number;
  backLeakLpm: number;
  waterlogged: boolean;
  /** what the one weak outlet passes, as a share */
  outletTimes: number;
  /** outlets open that nobody counts, in ordinary taps */
  hiddenTaps: number;
  readonly gauges: Map<string, GaugeError>;
}

/** Bar of head per metre at household temperatures, near enough for setting severities. */
const BAR_PER_M = 0.098;

/** The plant with its usual small neglects: cartridges part-loaded by age, taps not quite alike, gauges within class. */
export function soundCondition(plant: Plant, random: Random): Condition {
  const clean = lineOf(resolvePlant(plant).plant);
  const loaded = (element: Element): Element => {
    if (element.kind !== 'filter') return element;
    const age = ageShare(plant, element.id) ?? 0.5;
    return { ...element, linearFactor: 1 + Math.min(2.5, age * random.between(0, 2)) };
  };
  const gauges = new Map<string, GaugeError>();
  for (const part of plant.line) {
    if (part.kind !== 'gauge') continue;
    const permitted = ((part.classPercent ?? 2.5) / 100) * (part.rangeBar ?? 10);
    gauges.set(part.id, {
      offsetBar: random.between(-0.6, 0.6) * permitted,
      gain: (random.between(-0.6, 0.6) * permitted) / (part.rangeBar ?? 10),
      stuckBar: null,
    });
  }
  const tap = { ...clean.house.tap, kFactor: Math.exp(random.normal(0.1)) };
  return {
    clean,
    line: { ...clean, elements: clean.elements.map(loaded), house: { ...clean.house, tap } },
    gives: null,
    neverStops: false,
    unsteadyShare: 0,
    leakLpm: 0,
    backLeakLpm: 0,
    waterlogged: false,
    outletTimes: 1,
    hiddenTaps: 0,
    gauges,
  };
}

/** Puts a fault in, at a severity of the generator's own. Faults of the water's quality change nothing here. */
export function putIn(fault: Fault, condition: Condition, plant: Plant, random: Random): void {
  severities[fault.cause]?.(condition, fault.part, plant, random);
}

type PutIn = (c: Condition, part: string, plant: Plant, random: Random) => void;

const element = (c: Condition, id: string, change: (e: Element) => Partial<Element>) => {
  c.line = {
    ...c.line,
    elements: c.line.elements.map((e) => (e.id === id ? { ...e, ...change(e) } : e)),
  };
};
const blocked =
  (worst: number): PutIn =>
  (c, part, _, random) =>
    element(c, part, () => ({ linearFactor: random.logBetween(6, worst) }));
const quadraticOf = (barAt20Lpm: number): number => barToPa(barAt20Lpm) / lpmToM3s(20) ** 2;
const dead =
  (gives: Condition['gives']): PutIn =>
  (c) =>
    stop(c, gives);
const stop = (c: Condition, gives: Condition['gives']) => {
  c.gives ??= gives;
  if (c.line.pump) c.line = { ...c.line, pump: { ...c.line.pump, drive: false } };
};
const wear = (c: Condition, head: number, flow: number) => {
  const { pump } = c.line;
  if (!pump) return;
  const { headFactor, flowFactor } = pump;
  c.line = {
    ...c.line,
    pump: { ...pump, headFactor: headFactor * head, flowFactor: flowFactor * flow },
  };
};
const precharge = (c: Condition, changeBar: number) => {
  c.line = {
    ...c.line,
    vessels: c.line.vessels.map((v) => ({
      ...v,
      prechargePa: Math.max(0, v.prechargePa + barToPa(changeBar)),
    })),
  };
};
const house = (c: Condition, change: Partial<Line['house']>) => {
  c.line = { ...c.line, house: { ...c.line.house, ...change } };
};

/** The generator's own severities, cause by cause (common practice), none milder than what counts as present. */
const severities: Record<string, PutIn> = {
  'sediment-blocked': blocked(900),
  'carbon-blocked': blocked(500),
  'membrane-blocked': blocked(200),
  'pump-worn': (c, _, __, random) => {
    const head = random.between(0.35, 0.84);
    wear(c, head, random.chance(0.65) ? Math.min(1, head * random.between(0.75, 1.15)) : 1);
  },
  'pump-tripped': dead('silent'),
  'power-off': dead('silent'),
  'pump-seized': dead('hums'),
  'pump-unprimed': dead('runs-dry'),
  'control-failed': (c, _, __, random) => {
    if (random.chance(0.7)) return stop(c, 'silent');
    c.neverStops = true;
    c.line = { ...c.line, control: { kind: 'none' } };
  },
  'control-misset': (c, _, __, random) => {
    const by = barToPa(random.between(0.5, 1.4));
    const { control } = c.line;
    const down = random.chance(0.55);
    if (control.kind === 'variable-speed')
      c.line = {
        ...c.line,
        control: { ...control, setPa: Math.max(5e4, control.setPa + (down ? -by : by)) },
      };
    else if (control.kind === 'flow-controller')
      c.line = {
        ...c.line,
        control: { ...control, startPa: Math.max(3e4, control.startPa + (down ? -by : by)) },
      };
    else if (control.kind === 'pressure-switch') {
      const both = random.chance(0.6);
      const cutInPa = both ? Math.max(4e4, control.cutInPa + (down ? -by : by)) : control.cutInPa;
      const cutOutPa = control.cutOutPa + (down && both ? -by : by);
      c.line = {
        ...c.line,
        control: { ...control, cutInPa, cutOutPa: Math.max(cutInPa + 3e4, cutOutPa) },
      };
    }
  },
  'suction-blocked': (c, _, __, random) => {
    const need = c.line.house.need.flowM3s;
    c.line = {
      ...c.line,
      extraSuctionLossK: barToPa(random.logBetween(2.2, 200) * BAR_PER_M) / need ** 2,
    };
  },
  'suction-air-leak': (c, _, __, random) => {
    c.unsteadyShare += random.between(0.05, 0.3);
    wear(c, random.between(0.6, 0.96), random.between(0.5, 0.96));
  },
  'tank-low': (c, _, __, random) => {
    const levelM = random.chance(0.4) ? random.between(0.03, 0.19) : 0;
    c.line = { ...c.line, tank: { ...c.line.tank, levelM } };
    if (levelM === 0) return stop(c, random.chance(0.65) ? 'runs-dry' : 'silent');
    c.unsteadyShare += random.between(0.03, 0.25);
    wear(c, random.between(0.7, 1), random.between(0.6, 1));
  },
  'precharge-low': (c, _, __, random) => precharge(c, -random.between(0.4, 1.8)),
  'precharge-high': (c, _, __, random) => precharge(c, random.between(0.35, 1.4)),
  'diaphragm-failed': (c, _, __, random) => {
    c.waterlogged = true;
    const left = random.between(0.01, 0.06);
    c.line = {
      ...c.line,
      vessels: c.line.vessels.map((v) => ({ ...v, volumeM3: v.volumeM3 * left })),
    };
  },
  'check-valve-leaking': (c, _, __, random) => {
    c.backLeakLpm += random.logBetween(0.08, 4);
  },
  'leak-downstream': (c, _, __, random) => {
    c.leakLpm += random.logBetween(0.08, 6);
    house(c, { leakK: lpmToM3s(c.leakLpm) / Math.sqrt(barToPa(3)) });
  },
  'valve-part-closed': (c, part, _, random) =>
    element(c, part, () => ({ extraK: quadraticOf(random.logBetween(0.4, 30)) })),
  'bypass-open': (c) => {
    c.line = { ...c.line, bypasses: c.line.bypasses.map((b) => ({ ...b, open: true })) };
  },
  'house-pipe-restricted': (c, _, __, random) =>
    house(c, { lossFactor: c.line.house.lossFactor * random.logBetween(4, 80) }),
  'outlet-restricted': (c, _, __, random) => {
    c.outletTimes = random.between(0.12, 0.55);
  },
  'reducer-faulty': (c, part, _, random) => {
    const by = barToPa(random.between(0.6, 2)) * (random.chance(0.65) ? -1 : 1);
    element(c, part, (e) => ({ setPa: Math.max(3e4, (e.setPa ?? 0) + by) }));
  },
  'demand-too-high': (c, _, __, random) => {
    // As many as make the tap weak: below that it is no fault.
    const clean = tapLpm(c, false);
    c.hiddenTaps = random.between(0.8, 3);
    while (c.hiddenTaps < 30 && tapLpm(c, false) > 0.65 * clean) c.hiddenTaps *= 1.3;
  },
  'air-trapped': (c, _, plant, random) => {
    c.unsteadyShare += random.between(0.03, 0.25);
    const holders = plant.line.filter(
      (p) => p.kind === 'filter' || p.kind === 'uv' || p.kind === 'valve',
    );
    const extraK = quadraticOf(random.logBetween(0.1, 3));
    if (holders.length > 0 && random.chance(0.6))
      element(c, random.pick(holders).id, () => ({ extraK }));
    else house(c, { lossFactor: c.line.house.lossFactor * random.logBetween(1.5, 20) });
  },
  'pipe-frozen': (c) => house(c, { lossFactor: 1e6 }),
  'gauge-faulty': (c, part, plant, random) => {
    const gauge = plant.line.find((p) => p.id === part);
    const range = gauge?.kind === 'gauge' ? (gauge.rangeBar ?? 10) : 10;
    const permitted = gauge?.kind === 'gauge' ? ((gauge.classPercent ?? 2.5) / 100) * range : 0.25;
    const offsetBar =
      (random.chance(0.5) ? 1 : -1) * (2 * permitted + random.between(0.02, 0.25) * range);
    const stuckBar = random.chance(0.25) ? random.between(0, 0.5) * range : null;
    c.gauges.set(part, { offsetBar, gain: 0, stuckBar });
  },
  'uv-valve-shut': (c, part) => element(c, part, () => ({ extraK: quadraticOf(5000) })),
};
