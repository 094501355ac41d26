import { type FreeFeatures, type PlantFeatures, withDerived } from './features.ts';

const plain: FreeFeatures = {
  supply: 'valve',
  secondValve: false,
  far: true,
  bleed: true,
  gauge: true,
  gauges: true,
  gaugeBeforeValve: true,
  drain: false,
  vessel: 'none',
  uv: 'none',
  carbonAfterUv: false,
  carbon: false,
  bleeds: true,
  bypass: false,
  pump: true,
  submersible: false,
  control: 'flow-controller',
  mains: false,
  strainer: false,
  footValve: false,
};

/** Ways a plant differs in what does not decide how it is made safe; each is tried with every way of making safe. */
const settings: readonly Partial<FreeFeatures>[] = [
  {},
  { control: 'pressure-switch', vessel: 'behind', secondValve: true },
  { control: 'pressure-switch', vessel: 'inside', strainer: true },
  { control: 'variable-speed', vessel: 'inside', submersible: true, footValve: true },
  { pump: false, control: 'none' },
  { uv: 'after', secondValve: true, carbon: true },
  { uv: 'before', carbon: true, carbonAfterUv: true },
  { uv: 'here', carbon: true },
  { uv: 'here', pump: false, control: 'none', bleeds: false },
  { uv: 'after', mains: true, bypass: true, control: 'pressure-switch', vessel: 'behind' },
  {
    uv: 'before',
    mains: true,
    bypass: true,
    carbon: true,
    control: 'pressure-switch',
    vessel: 'inside',
  },
  { uv: 'here', mains: true, bypass: true, secondValve: true, strainer: true, footValve: true },
];

/** What there is to see by, besides a tap. */
const seeing: readonly Partial<FreeFeatures>[] = [
  { bleed: true, gauge: true, gauges: true, drain: false },
  { bleed: true, gauge: false, gauges: false, gaugeBeforeValve: false, drain: false },
  { bleed: false, gauge: true, gauges: true, drain: false },
  { bleed: false, gauge: false, gauges: true, gaugeBeforeValve: false, drain: true },
  { bleed: false, gauge: false, gauges: false, gaugeBeforeValve: false, drain: false },
];

/** Every way of shutting off, seeing and draining, times the settings: the kinds of plant the proof runs over. */
export function featureCases(): PlantFeatures[] {
  const safe: Partial<FreeFeatures>[] = (['valve', 'tank-cock', 'lift', 'none'] as const).flatMap(
    (supply) => [true, false].flatMap((far) => seeing.map((means) => ({ supply, far, ...means }))),
  );
  return settings.flatMap((setting) =>
    safe
      .filter(({ supply }) => setting.pump !== false || supply === 'valve' || supply === 'none')
      .map((way) =>
        withDerived({
          ...plain,
          ...setting,
          ...way,
          secondValve: way.supply === 'valve' && setting.secondValve === true,
        }),
      ),
  );
}
