import { type FreeFeatures, withDerived } from '../../shared/work/features.ts';
import type { Act, Found, Shows } from '../../shared/work/schema.ts';
import { afterAct, type World, worldAt } from '../../shared/work/world.ts';

/** A plant of every ordinary means to shut off, lock and relieve, with what is different. */
export const plant = (differs: Partial<FreeFeatures> = {}) =>
  withDerived({
    ...{ supply: 'valve', secondValve: true, far: true, bleed: true, gauge: true, gauges: true },
    ...{
      drain: true,
      vessel: 'none',
      uv: 'none',
      carbonAfterUv: false,
      carbon: false,
      bleeds: true,
    },
    ...{ bypass: false, pump: true, submersible: false, control: 'flow-controller' },
    ...{ mains: false, strainer: false, footValve: false },
    ...differs,
  } as FreeFeatures);
export const bare = plant();
export const noPump = plant({ pump: false });
export const withMains = plant({ mains: true });
export const lift = plant({ supply: 'lift' });
export const uv = (where: FreeFeatures['uv']) => plant({ uv: where, bypass: true });

export const found = (features = bare, ...as: Found[]) => worldAt(features, as, true, true, null);
export const passes = worldAt(bare, [], false, true, null);
export const wrongSwitch = worldAt(bare, [], true, false, null);
export const deceived = (by: Shows['by']) => worldAt(bare, [], true, true, by);
export const after = (world: World, acts: readonly Act[], features = bare) =>
  acts.reduce((before, act) => afterAct(before, act, features), world);
export const isolated: Act[] = ['lock-power', 'shut-supply'];
/** Locked, shut off, relieved at the tap and cut off from the house: ready to be opened. */
export const ready = after(found(), [...isolated, 'open-tap', 'shut-far']);
export const opened = after(ready, ['open-wetted']);
