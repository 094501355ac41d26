import type { Effect } from './effects.ts';
import { restsAbove } from './exceeds.ts';
import type { Curves } from './flow-grid.ts';
import { type GaugeError, levelBar } from './gauge-errors.ts';
import { below, density, evenDensity } from './normal.ts';
import { heldBy, passesAtRest, type Reducer } from './reducers.ts';
import { RUNS_ON, restDensity, type Source } from './source.ts';

/**
 * All taps shut, nothing flows: every gauge shows the pressure at rest but for its own error and height. Their level
 * speaks of the pump and its control, their disagreement of a gauge; behind a reducer, of what it holds.
 */
export interface ClosedState {
  readonly likelihood: (source: Source, effects: readonly Effect[]) => number;
  readonly unlisted: number;
}

/** A gauge that is shut off, misread or stuck: one reading in sixty (common practice). */
export const SLIP = 1 / 60;

/** What the read gauges show at rest, at the pump's height, with the standard uncertainty of each. */
export function restReadings(
  bar: Readonly<Record<string, number | 'unknown'>>,
  gauges: readonly GaugeError[],
  datumM: number,
) {
  return gauges
    .filter((gauge) => typeof bar[gauge.id] === 'number')
    .map((gauge) => ({
      gauge,
      bar: levelBar(gauge, Number(bar[gauge.id]), datumM),
      sd: Math.hypot(gauge.offsetBar, gauge.readingBar),
    }));
}

export function closedState(
  bar: Readonly<Record<string, number | 'unknown'>>,
  gauges: readonly GaugeError[],
  { datumM, reducers }: Pick<Curves, 'datumM' | 'reducers'>,
  motor: 'on' | 'off' | null,
): ClosedState {
  const all = restReadings(bar, gauges, datumM);
  const zones = [...reducers.keys(), reducers.length].map((zone) =>
    all.filter(({ gauge }) => gauge.zone === zone),
  );
  const sound = zones.map((read) => agreement(read, null, 0));
  return {
    likelihood: (source, effects) => {
      const faulty = effects.find((effect) => effect.gauge !== null);
      let chance = 1;
      let before: Level | null = null;
      zones.forEach((read, zone) => {
        const doubted = faulty && read.some(({ gauge }) => gauge.id === faulty.gauge);
        const shown = doubted
          ? agreement(read, faulty.gauge, faulty.change.gaugeShare ?? 0.2)
          : (sound[zone] ?? agreement(read, null, 0));
        chance *= shown.chance;
        const reducer = reducers[zone - 1];
        if (shown.any) {
          const told: number = reducer
            ? behindReducer(shown, before, reducer, source, effects)
            : restDensity(source, shown.mean, shown.sd);
          chance *= (1 - SLIP) * told + SLIP / 6;
          before = shown;
        } else if (reducer && before) before = held(before, reducer, effects);
      });
      return chance * motorChance(source, motor);
    },
    unlisted: sound.reduce(
      (chance, { chance: agrees, any }) => chance * agrees * (any ? 1 / 6 : 1),
      motor ? 0.5 : 1,
    ),
  };
}

/** A pressure with its standard uncertainty. */
interface Level {
  readonly mean: number;
  readonly sd: number;
}

/** How well gauges with nothing but pipe between them agree, and their level without one under suspicion. */
function agreement(read: ReturnType<typeof restReadings>, faulty: string | null, share: number) {
  const trusted = read.filter(({ gauge }) => gauge.id !== faulty);
  const mean = trusted.reduce((sum, r) => sum + r.bar, 0) / Math.max(1, trusted.length);
  let chance = 1;
  for (const r of trusted.slice(1))
    chance *= (1 - SLIP) * density(r.bar, mean, r.sd) + SLIP / r.gauge.rangeBar;
  const odd = read.find(({ gauge }) => gauge.id === faulty);
  // A gauge counts as faulty past twice its class: wrong by at least that, up to its share of the range.
  if (odd)
    chance *= oddDensity(
      odd.bar - mean,
      2 * odd.gauge.permittedBar,
      share * odd.gauge.rangeBar,
      odd.sd,
    );
  const sd =
    Math.sqrt(trusted.reduce((sum, r) => sum + r.sd ** 2, 0)) / Math.max(1, trusted.length);
  return { chance, mean, sd, any: trusted.length > 0 };
}

/** What a reducer leaves at rest of the pressure before it. */
function held(before: Level, reducer: Reducer, effects: readonly Effect[]): Level {
  const set = heldBy(reducer, effects);
  return set.bar < before.mean && !passesAtRest(reducer, effects)
    ? { mean: set.bar, sd: set.sd }
    : before;
}

/** Density of what is read behind a reducer at rest. `before`: what was read before it; null: only the source tells. */
function behindReducer(
  shown: Level,
  before: Level | null,
  reducer: Reducer,
  source: Source,
  effects: readonly Effect[],
): number {
  const set = heldBy(reducer, effects);
  const setSd = Math.hypot(shown.sd, set.sd);
  if (before) {
    // It creeps up from what it should hold, as far as the time since the last draw let it.
    if (passesAtRest(reducer, effects) && before.mean > set.bar)
      return evenDensity(shown.mean, set.bar, before.mean, Math.hypot(shown.sd, before.sd));
    const left = held(before, reducer, effects);
    return density(shown.mean, left.mean, Math.hypot(shown.sd, left.sd));
  }
  if (passesAtRest(reducer, effects))
    return evenDensity(shown.mean, set.bar, Math.max(set.bar, source.highBar), setSd);
  return (
    density(shown.mean, set.bar, setSd) * restsAbove(source, set.bar) +
    restDensity(source, shown.mean, shown.sd) * below((set.bar - shown.mean) / set.sd)
  );
}

function oddDensity(off: number, least: number, most: number, sd: number): number {
  const top = Math.max(most, least * 1.5);
  return 0.5 * (evenDensity(off, least, top, sd) + evenDensity(-off, least, top, sd));
}

/** With all taps shut a sound pump stands still but for the moments after a draw. */
function motorChance(source: Source, motor: 'on' | 'off' | null): number {
  if (!motor) return 1;
  const top = source.raw[0] ?? 0;
  const stuck = source.neverStops || source.gives === 'runs-dry' || source.control === 'none';
  const runsOn = stuck ? 1 : top < source.highBar ? RUNS_ON[source.control] : 0;
  const leaks = source.leakLpm + source.backLeakLpm > 0;
  const on = 0.9 * runsOn + (leaks ? 0.3 : 0.06) * (1 - runsOn);
  return motor === 'on' ? on : 1 - on;
}
