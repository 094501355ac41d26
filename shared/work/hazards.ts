import type { PlantFeatures } from './features.ts';
import type { Act } from './schema.ts';
import type { SheetStep } from './sheet.ts';
import { pumpDead, seemsDead, supplyShut, type World } from './world.ts';

/** Why doing this now could hurt somebody or spoil the plant; empty when it is safe. */
export function dangersOf(
  act: Act,
  step: SheetStep | null,
  world: World,
  features: PlantFeatures,
): string[] {
  const wrong: string[] = [];
  const unless = (isSafe: boolean, why: string): void => {
    if (!isSafe) wrong.push(why);
  };
  switch (act) {
    case 'open-wetted':
      unless(seemsDead(world, features), 'opens a wetted part while the pump can still start');
      unless(supplyShut(world, features), 'opens a wetted part while its supply is not shut');
      unless(!world.pressure, 'opens a wetted part under pressure');
      unless(world.far !== 'open', 'opens a wetted part while the house can drain back through it');
      if (features.uv === 'here')
        unless(world.lamp === 'cold', 'opens the lamp chamber while the lamp is lit or hot');
      break;
    case 'open-live':
      unless(step?.by === 'electrician', 'opens a live part without a licensed electrician');
      unless(pumpDead(world, features), 'opens a live part that is not dead');
      break;
    case 'open-lamp':
      unless(world.lamp === 'cold', 'takes the lamp out of its shield while it is lit or hot');
      break;
    case 'open-gas':
    case 'release-gas':
      unless(
        !world.pressure,
        'works on the gas side of the vessel while its water side is under pressure',
      );
      unless(seemsDead(world, features), 'works on the vessel while the pump can still start');
      break;
    case 'crack-supply':
    case 'open-supply':
    case 'open-mains':
    case 'power-on':
      unless(world.wetted === 'closed', 'lets water or power on while a part is still open');
      if (act === 'power-on')
        unless(world.live === 'closed', 'lets power on while a live part is still open');
      if (act === 'power-on')
        unless(
          world.tap === 'shut' || world.far === 'shut',
          'lets power on while a tap is open, so that no pressure can build',
        );
      break;
    case 'uv-on':
      unless(world.lampCover === 'closed', 'lights the lamp while it is out of its shield');
      unless(
        world.wetted === 'closed' || features.uv !== 'here',
        'lights the lamp while its chamber is open',
      );
      break;
    case 'dose-line':
      if (features.uv === 'here' || features.uv === 'after') {
        unless(world.lamp !== 'lit', 'doses the line while the lamp is lit');
      }
      break;
    default:
  }
  return wrong;
}

/** Opening these needs a caution at the step. */
export const opening: readonly Act[] = [
  'open-wetted',
  'open-live',
  'open-lamp',
  'open-gas',
  'release-gas',
  'open-tank',
  'dose-line',
  'dose-tank',
];

/** What is not back in service, for a job that ends as done. */
export function notInService(world: World, features: PlantFeatures): string[] {
  const left: [boolean, string][] = [
    [world.power !== 'on' && features.pump, 'the power of the pump off'],
    [world.supply !== 'open', 'the valve before the part not fully open'],
    [world.second !== 'open', 'the second valve shut'],
    [features.mains && world.mains !== 'open', 'the mains back-up shut'],
    [world.far !== 'open', 'the house shut off'],
    [world.tap !== 'shut', 'a tap open'],
    [world.drain !== 'shut', 'the drain open'],
    [world.bypass !== 'shut', 'the bypass open'],
    [features.uv !== 'none' && world.lamp !== 'lit', 'the lamp off'],
    [world.lampCover !== 'closed', 'the lamp out of its shield'],
    [world.wetted !== 'closed', 'a part open'],
    [world.live !== 'closed', 'a live part open'],
    [world.gasValve !== 'closed' || world.gas !== 'charged', 'the vessel without its gas'],
    [world.tank !== 'closed', 'the tank open'],
    [world.air, 'air in the line'],
    [!world.leaksChecked, 'no leak check under pressure'],
    [world.dosed !== null, 'chlorine left in the line'],
  ];
  return left.flatMap(([isLeft, what]) => (isLeft ? [`ends with ${what}`] : []));
}

/** What could hurt somebody who finds the plant as a hand-over leaves it. */
export function notLeftSafe(world: World, features: PlantFeatures): string[] {
  const wrong: string[] = [];
  const isDead = seemsDead(world, features) && supplyShut(world, features);
  if (world.wetted === 'open' && !isDead)
    wrong.push('is handed over with a part open and the supply or pump not locked');
  if (world.live === 'open' && !pumpDead(world, features))
    wrong.push('is handed over with a live part open');
  if (world.lampCover === 'open' && world.lamp === 'lit')
    wrong.push('is handed over with the lamp lit outside its shield');
  if (world.tank === 'open') wrong.push('is handed over with the tank open');
  return wrong;
}
