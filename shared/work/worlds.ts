import type { Sheet } from './sheet.ts';
import { type World, worldAt } from './world.ts';

/**
 * Every world a sheet may meet: all as it should be; the wrong switch locked; and, with a valve that holds or passes,
 * any one means of seeing pressure that deceives. Two means deceiving together is what asking for two signs leaves over.
 */
export function worldsOf(sheet: Sheet): World[] {
  const { features, found } = sheet;
  const steps = [
    ...sheet.steps,
    ...Object.values(sheet.branches).flatMap((branch) => branch.steps),
  ];
  const means = steps.flatMap((step) =>
    Object.values(step.answers).flatMap(({ shows }) =>
      shows?.fact.includes('pressure') ? [shows.by] : [],
    ),
  );
  const deceivers = [null, ...new Set(means)];
  const isOpening = steps.some((step) =>
    [step, ...Object.values(step.answers)].some(({ does }) =>
      does.some((act) => act.startsWith('open-')),
    ),
  );
  const isLive = steps.some((step) => step.does.includes('open-live'));
  const at = (holds: boolean, rightSwitch: boolean, deceives: World['deceives']) =>
    worldAt(features, found, holds, rightSwitch, deceives);
  return [
    ...deceivers.map((means) => at(true, true, means)),
    ...(isOpening ? deceivers.map((means) => at(false, true, means)) : []),
    ...(features.pump && isOpening ? [at(true, false, null)] : []),
    ...(features.pump && isLive ? [at(true, false, 'pump')] : []),
  ];
}

/** A world in words, for the head of a path. */
export function describe(world: World): string {
  const odd = [
    ...(world.holds ? [] : ['the valve passes water']),
    ...(world.rightSwitch ? [] : ['the wrong switch is locked']),
    ...(world.deceives ? [`the ${world.deceives} deceives`] : []),
  ];
  return `(${odd.join(', ') || 'all as it should be'})`;
}
