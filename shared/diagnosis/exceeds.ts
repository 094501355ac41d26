import { below } from './normal.ts';
import type { Source } from './source.ts';

/** Share of values spread evenly over [low, high] that lie above a bound. */
const evenAbove = (bar: number, low: number, high: number): number =>
  high - low < 1e-6 ? Number(high > bar) : Math.min(1, Math.max(0, (high - bar) / (high - low)));

const above = (bar: number, mean: number, sd: number): number =>
  below((mean - bar) / Math.max(0.02, sd));

/** Chance that the pump's outlet stands above `bar` while flow j runs: the share beyond it of `pressureDensity`. */
export function runsAbove(source: Source, j: number, bar: number): number {
  const raw = source.raw[j] ?? 0;
  const sd = source.sd[j] ?? 0;
  if (source.gives) return 0.8 * above(bar, raw, Math.max(0.1, sd)) + 0.2 * leftAbove(source, bar);
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
  if (source.gives)
    return 0.56 * above(bar, top, Math.max(0.1, sd)) + 0.44 * leftAbove(source, bar);
  if (source.control === 'variable-speed')
    return above(bar, top, sd) * above(bar, source.highBar, source.settingSd);
  if (source.control !== 'pressure-switch') return above(bar, top, sd);
  const stops = source.neverStops ? 0 : above(source.highBar, top, sd);
  return stops * evenAbove(bar, source.lowBar, source.highBar) + (1 - stops) * above(bar, top, sd);
}

/** What was left of the pressure when a pump stopped that gives nothing. */
const leftAbove = (source: Source, bar: number): number =>
  evenAbove(bar, 0, Math.max(1, source.highBar));
