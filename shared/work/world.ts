import type { PlantFeatures } from './features.ts';
import type { Act, Fact, Found, Shows } from './schema.ts';

/**
 * A small model of the real plant during work, kept apart from what the sheet claims. The proof plays every job against
 * it, with the things that go wrong in practice built in: a valve that does not hold, the wrong switch locked, and any
 * one means of seeing pressure that deceives (a stuck pointer, a plugged bleed, a blocked cartridge before a dry tap).
 */
export interface World {
  // what the person cannot know; fixed through a job
  readonly holds: boolean;
  readonly deceives: Shows['by'] | null;
  // the plant
  readonly power: 'on' | 'off' | 'locked';
  readonly rightSwitch: boolean;
  readonly supply: 'open' | 'cracked' | 'shut';
  readonly second: 'open' | 'shut';
  readonly mains: 'open' | 'shut';
  readonly far: 'open' | 'shut' | 'drained';
  readonly tap: 'open' | 'shut';
  readonly drain: 'open' | 'shut';
  readonly pressure: boolean;
  readonly lamp: 'lit' | 'hot' | 'cold';
  readonly bypass: 'shut' | 'open';
  readonly wetted: 'closed' | 'open';
  readonly live: 'closed' | 'open';
  readonly lampCover: 'closed' | 'open';
  readonly gas: 'charged' | 'released';
  readonly gasValve: 'closed' | 'open';
  readonly tank: 'closed' | 'open';
  readonly air: boolean;
  readonly leaksChecked: boolean;
  /** water that has not been through the lamp, or has touched opened parts after it, stands in the house's pipes */
  readonly untreated: boolean;
  /** where chlorine was poured in that is not flushed out yet */
  readonly dosed: 'tank' | 'line' | null;
}

/** The plant as a job finds it. */
export function worldAt(
  features: PlantFeatures,
  found: readonly Found[],
  holds: boolean,
  rightSwitch: boolean,
  deceives: World['deceives'],
): World {
  const isBypassed = features.bypass && found.includes('bypass-open');
  return {
    holds,
    rightSwitch,
    deceives,
    power: found.includes('power-off') ? 'off' : 'on',
    supply: found.includes('supply-shut') ? 'shut' : 'open',
    second: 'open',
    mains: features.mains ? 'open' : 'shut',
    far: 'open',
    tap: 'shut',
    drain: 'shut',
    pressure: true,
    lamp: features.uv === 'none' || found.includes('uv-off') ? 'cold' : 'lit',
    bypass: isBypassed ? 'open' : 'shut',
    wetted: 'closed',
    live: 'closed',
    lampCover: 'closed',
    gas: 'charged',
    gasValve: 'closed',
    tank: 'closed',
    air: false,
    leaksChecked: true,
    untreated:
      found.includes('unsafe-water') ||
      (features.uv !== 'none' && (found.includes('uv-off') || isBypassed)),
    dosed: null,
  };
}

/** True when nothing can start the pump: no pump, or its own switch is locked. */
export const pumpDead = (world: World, features: PlantFeatures): boolean =>
  !features.pump || (world.power === 'locked' && world.rightSwitch);

/**
 * Dead as far as locking and trying can tell. A pump that does not start anyway cannot prove the switch: good enough
 * for opening what has its own valve and no pressure, never for opening what is live.
 */
export const seemsDead = (world: World, features: PlantFeatures): boolean =>
  pumpDead(world, features) || (world.power === 'locked' && world.deceives === 'pump');

export const supplyShut = (world: World, features: PlantFeatures): boolean =>
  world.mains === 'shut' &&
  (features.supply === 'lift' ? seemsDead(world, features) : world.supply === 'shut');

const isFed = (world: World, features: PlantFeatures): boolean =>
  !supplyShut(world, features) ||
  (!world.holds && world.second === 'open' && features.supply !== 'lift');

const effects: Readonly<Record<Act, Partial<World>>> = {
  'switch-off': { power: 'off' },
  'lock-power': { power: 'locked' },
  'lock-main-switch': { power: 'locked', rightSwitch: true },
  'power-on': { power: 'on' },
  'shut-supply': { supply: 'shut' },
  'shut-second-valve': { second: 'shut' },
  'lower-tank': { supply: 'shut', holds: true },
  'crack-supply': { supply: 'cracked' },
  'open-supply': { supply: 'open' },
  'open-second-valve': { second: 'open' },
  'shut-mains': { mains: 'shut' },
  'open-mains': { mains: 'open' },
  'shut-far': { far: 'shut' },
  'drain-far': { far: 'drained' },
  'open-far': { far: 'open' },
  'open-tap': { tap: 'open' },
  'shut-tap': { tap: 'shut' },
  'press-bleed': {},
  'open-drain': { drain: 'open' },
  'shut-drain': { drain: 'shut' },
  'let-air-out': { air: false },
  'check-leaks': {},
  'uv-off': { lamp: 'hot' },
  'uv-cool': {},
  'uv-on': { lamp: 'lit' },
  'open-wetted': { wetted: 'open', air: true, leaksChecked: false, pressure: false },
  'close-wetted': { wetted: 'closed' },
  'open-live': { live: 'open' },
  'close-live': { live: 'closed' },
  'open-lamp': { lampCover: 'open' },
  'close-lamp': { lampCover: 'closed' },
  'open-gas': { gasValve: 'open' },
  'close-gas': { gasValve: 'closed' },
  'release-gas': { gas: 'released' },
  'fill-gas': { gas: 'charged' },
  'open-tank': { tank: 'open' },
  'close-tank': { tank: 'closed' },
  'open-bypass': { bypass: 'open' },
  'shut-bypass': { bypass: 'shut' },
  'run-water': {},
  'dose-line': { dosed: 'line' },
  'dose-tank': { dosed: 'tank' },
  'flush-line': {},
};

/** The plant after an act. */
export function afterAct(world: World, act: Act, features: PlantFeatures): World {
  return flow(act, { ...world, ...effects[act], ...special(world, act, features) }, features);
}

/** What an act does that depends on the rest of the plant. */
function special(world: World, act: Act, features: PlantFeatures): Partial<World> {
  switch (act) {
    case 'uv-cool':
      return world.lamp === 'hot' ? { lamp: 'cold' } : {};
    case 'uv-off':
      return world.lamp === 'cold' ? { lamp: 'cold' } : {};
    case 'check-leaks':
      return { leaksChecked: world.pressure };
    case 'open-wetted':
      return features.uv === 'here' || features.uv === 'before' ? { untreated: true } : {};
    case 'flush-line':
      if (!world.dosed || !isTreating(world, features)) return {};
      return { dosed: null, ...(reachesTaps(world, features) && { untreated: false }) };
    default:
      return {};
  }
}

/** Carbon takes the chlorine out of what comes from the tank, so the pipes behind it are not disinfected. */
const reachesTaps = ({ dosed }: World, { carbon }: PlantFeatures): boolean =>
  dosed === 'line' || !carbon;

const isTreating = (world: World, features: PlantFeatures): boolean =>
  features.uv === 'none' || (world.lamp === 'lit' && world.bypass === 'shut');

/** Lets the water go where it can: feeds the section or relieves it, and carries untreated water to the house. */
function flow(act: Act, world: World, features: PlantFeatures): World {
  const isRunning = (world.tap === 'open' || act === 'run-water') && world.far === 'open';
  const goesUntreated = isRunning && isFed(world, features) && !isTreating(world, features);
  return { ...pressed(act, world, features), untreated: world.untreated || goesUntreated };
}

function pressed(act: Act | null, world: World, features: PlantFeatures): World {
  const isRelieved =
    (world.tap === 'open' && world.far !== 'shut' && world.deceives !== 'tap') ||
    (act === 'press-bleed' && world.deceives !== 'bleed') ||
    (world.drain === 'open' && world.deceives !== 'drain');
  const isUnder = isFed(world, features) || (world.pressure && !isRelieved);
  return { ...world, pressure: world.wetted === 'closed' && isUnder };
}

/** What somebody may have done to the plant while nobody watched: the worst of it, the far valve touched or not. */
export function afterBreak(world: World, features: PlantFeatures): World[] {
  const touched: World = {
    ...world,
    lamp:
      world.lamp !== 'lit' && features.uv !== 'none' && world.lampCover === 'closed'
        ? 'lit'
        : world.lamp,
    power: features.pump ? 'on' : world.power,
    supply: 'open',
    mains: features.mains ? 'open' : 'shut',
    pressure: true,
  };
  const opened: World = { ...touched, far: world.far === 'drained' ? 'drained' : 'open' };
  return [opened, ...(world.far === 'shut' ? [touched] : [])].map((each) =>
    pressed(null, each, features),
  );
}

/** The plant after a person found that a claimed fact no longer holds. */
export function afterLoss(world: World, lost: Fact, features: PlantFeatures): World {
  switch (lost) {
    case 'pump-dead':
      return pressed(null, { ...world, power: features.pump ? 'on' : world.power }, features);
    case 'supply-shut':
      return pressed(null, { ...world, supply: 'open' }, features);
    case 'far-shut':
      return pressed(null, { ...world, far: 'open' }, features);
    case 'no-pressure':
      return pressed(null, { ...world, pressure: true }, features);
    default:
      return world;
  }
}

/** True when the fact is so. */
export function isSo(fact: Fact, world: World, features: PlantFeatures): boolean {
  switch (fact) {
    case 'pump-dead':
      return seemsDead(world, features);
    case 'no-voltage':
      return pumpDead(world, features);
    case 'supply-shut':
      return supplyShut(world, features);
    case 'far-shut':
      return world.far !== 'open';
    case 'no-pressure':
      return !world.pressure;
    case 'lamp-cold':
      return world.lamp === 'cold';
    case 'wetted-open':
      return world.wetted === 'open';
    case 'wetted-closed':
      return world.wetted === 'closed';
    case 'gas-released':
      return world.gas === 'released';
    case 'tight':
      return world.leaksChecked && world.wetted === 'closed';
    case 'air-out':
      return !world.air;
    case 'lamp-lit':
      return world.lamp === 'lit';
  }
}

/** Whether this can be seen: as it is, or by the one means that deceives, or by one that cannot tell as things stand. */
export function canShow(shows: Shows, world: World, features: PlantFeatures): boolean {
  if (shows.by === world.deceives || isBlind(shows, world, features)) return true;
  switch (shows.fact) {
    case 'no-pressure':
      return !world.pressure;
    case 'pressure':
      return world.pressure;
    case 'pump-dead':
    case 'no-voltage':
      return isOff(world, features);
    case 'pump-live':
    case 'voltage':
      return !isOff(world, features);
  }
}

/** Off for now: seen by trying or testing, while only a lock keeps it so. */
const isOff = (world: World, features: PlantFeatures): boolean =>
  !features.pump || (world.power !== 'on' && world.rightSwitch);

/** A tap behind a shut valve says nothing of the part; a pump is tried only by a tap that it could feed. */
function isBlind(shows: Shows, world: World, features: PlantFeatures): boolean {
  const isTapCutOff = world.tap === 'shut' || world.far === 'shut';
  if (shows.by === 'tap') return isTapCutOff;
  return (
    shows.by === 'pump' && (isTapCutOff || (features.supply === 'valve' && world.supply === 'shut'))
  );
}
