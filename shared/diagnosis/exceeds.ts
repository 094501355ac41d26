import { below } from './normal.ts';
import { AS_RUNNING, AT_TANK_HEAD, type Source } from './source.ts';

/** Share of values spread evenly over [low, high] that lie above a bound. */
const evenAbove = (bar: number, low: number, high: number): number =>
  high - low < 1e-6 ? Number(high > bar) : Math.min(1, Math.max(0, (high - bar) / (high - low)));

const above = (bar: number, mean: number, sd: number): number =>
  below((mean - bar) / Math.max(0.02, sd));

/** Chance that the pump's outlet stands above `bar` while flow j runs: the share beyond it of `pressureDensity`. */
export function runsAbove(source: Source, j: number, bar: number): number {
  const raw = source.raw[j] ?? 0;
  const sd = source.sd[j] ?? 0;
  if (source.gives) return deadAbove(source, bar, raw, sd, AT_TANK_HEAD);
  if (source.control === 'variable-speed' && !source.neverStops)
    return above(bar, raw, sd) * above(bar, source.highBar, source.settingSd);
  const cycles = source.cycling[j] ?? 0;
  const held = source.control === 'pressure-switch' && !source.neverStops;
  const steady = held ? Math.min(raw, source.highBar) : raw;
  return (
    cycles * evenAbove(bar, source.lowBar, source.highBar) + (1 - cycles) * above(bar, steady, sd)
  );
}

/** Chance that it rests above `bar` with all taps shut: the share beyond it of `restDensity`. */
export function restsAbove(source: Source, bar: number): number {
  const top = source.raw[0] ?? 0;
  const sd = source.sd[0] ?? 0;
  if (source.gives) return deadAbove(source, bar, top, sd, AT_TANK_HEAD * AS_RUNNING);
  if (source.control === 'variable-speed')
    return above(bar, top, sd) * above(bar, source.highBar, source.settingSd);
  if (source.control !== 'pressure-switch') return above(bar, top, sd);
  const stops = source.neverStops ? 0 : above(source.highBar, top, sd);
  return stops * evenAbove(bar, source.lowBar, source.highBar) + (1 - stops) * above(bar, top, sd);
}

/** The same of a pump that gives nothing, which stands at the tank's head with a chance, else at what was left when it stopped. */
const deadAbove = (source: Source, bar: number, tankBar: number, sd: number, chance: number) =>
  chance * above(bar, tankBar, Math.max(0.1, sd)) +
  (1 - chance) * evenAbove(bar, 0, Math.max(1, source.highBar));
