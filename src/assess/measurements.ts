import type { Line } from '../../shared/hydraulics/line/types.ts';
import { pumpInletPa, pumpOutletPa, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import type { Random } from './random.ts';
import {
  drawdownL,
  lineWithTap,
  lossClosedLpm,
  lpmOf,
  oneTap,
  restingPa,
  taps,
} from './running.ts';
import { cleanFlow, type World } from './world.ts';

/** Answers to the tests that measure something, from the line as it really is; null where the test tells nothing. */
export type Measure = (world: World, random: Random) => unknown;

const rounded = (value: number, to = 100) => Math.round(value * to) / to;

export const shutOff: Measure = ({ condition }, random) => {
  const { line, gives } = condition;
  if (gives || !line.pump) return { bar: 0 };
  const bar =
    paToBar(pumpOutletPa(line, 0)) * (1 + random.normal(0.02 + 0.5 * condition.unsteadyShare));
  return { bar: rounded(Math.max(0, bar), 20) };
};

export const pressureHold =
  (isolated: boolean): Measure =>
  (world, random) => {
    const { condition } = world;
    const rest = restingPa(condition);
    if (!rest) return null;
    const pa = (rest.lowPa + rest.highPa) / 2;
    const minutes = 10;
    const litres = lossClosedLpm(condition, pa, isolated) * minutes;
    const given = drawdownL(condition.line, rest.lowPa, rest.highPa);
    const perBar = Math.max(0.03, given / paToBar(rest.highPa - rest.lowPa));
    const lostBar = Math.min(paToBar(rest.highPa), litres / perBar) + Math.abs(random.normal(0.03));
    return { lostBar: rounded(lostBar, 20), minutes };
  };

export const precharge: Measure = ({ condition }, random) => {
  const { line, waterlogged } = condition;
  const [vessel] = line.vessels;
  if (!vessel) return null;
  if (waterlogged && random.chance(0.88)) return 'water-at-valve';
  const bar = waterlogged
    ? random.between(0, 1)
    : paToBar(vessel.prechargePa) + random.normal(0.05);
  return { bar: rounded(Math.max(0, bar), 20) };
};

export const cycleTimes: Measure = (world, random) => {
  const { condition, weakTap } = world;
  const timed = (onS: number, offS: number, state: 'open' | 'closed') => ({
    onS: rounded(Math.max(0.5, onS * Math.exp(random.normal(0.12))), 2),
    offS: rounded(Math.max(0.5, offS * Math.exp(random.normal(0.12))), 2),
    taps: state,
  });
  const { cycle } = oneTap(condition, weakTap);
  if (cycle && cycle.offS < 900) return timed(cycle.onS, cycle.offS, 'open');
  const rest = restingPa(condition);
  const lost = rest ? lossClosedLpm(condition, (rest.lowPa + rest.highPa) / 2) : 0;
  if (!rest || lost === 0) return null;
  const litres = drawdownL(condition.line, rest.lowPa, rest.highPa);
  const offS = (60 * litres) / lost;
  const pumpLpm = Math.max(lost + 2, 1.2 * cleanFlow(world.plant));
  return offS < 1800 ? timed((60 * litres) / (pumpLpm - lost), offS, 'closed') : null;
};

/** A vacuum gauge ends at zero and at a full vacuum. */
const vacuumShown = (bar: number) => rounded(Math.max(-1, Math.min(0, bar)));

export const vacuum: Measure = ({ condition, weakTap }, random) => {
  const line = lineWithTap(condition, weakTap);
  if (condition.gives) return { bar: vacuumShown(paToBar(pumpInletPa(line, 0))) };
  const solution = solveLine(line, taps(condition, 1));
  const bar = paToBar(pumpInletPa(line, solution.flowM3s)) + random.normal(0.02);
  return { bar: vacuumShown(bar) };
};

/** The sediment cartridges out (without any, all others), the same tap tried: what the flow does then. */
export const emptyHousing: Measure = (world, random) => {
  const { condition, plant, weakTap } = world;
  const cartridges = plant.line.filter((p) => p.kind === 'filter' && p.medium !== 'softener');
  const sediment = cartridges.filter((p) => p.kind === 'filter' && p.medium === 'sediment');
  const removed = (sediment.length > 0 ? sediment : cartridges).map(({ id }) => id);
  if (removed.length === 0) return null;
  const before = lpmOf(oneTap(condition, weakTap));
  const line: Line = {
    ...condition.line,
    elements: condition.line.elements.map((e) =>
      removed.includes(e.id) ? { ...e, linearFactor: 0.02, quadraticFactor: 0.3 } : e,
    ),
  };
  const after = lpmOf(oneTap({ ...condition, line }, weakTap)) * Math.exp(random.normal(0.05));
  const clean = cleanFlow(plant);
  const result =
    after < 1.25 * before + 0.2 ? 'same' : after > 0.85 * clean ? 'restored' : 'better';
  return { removed, result };
};

export const tankLevel: Measure = ({ condition, plant }, random) => {
  const levelM = condition.line.tank.levelM;
  if (!plant.line.some((p) => p.kind === 'tank')) return null;
  if (random.chance(0.4)) return { m: rounded(Math.max(0, levelM + random.normal(0.03))) };
  if (levelM <= 0) return random.chance(0.85) ? 'below-outlet' : 'low';
  if (levelM < 0.25) return random.chance(0.9) ? 'low' : 'below-outlet';
  if (levelM < 0.6) return random.chance(0.7) ? 'low' : 'half';
  return levelM < 1.5 ? 'half' : 'full';
};
