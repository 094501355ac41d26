import type { Effect } from './effects.ts';
import { type GaugeError, levelBar } from './gauge-errors.ts';
import { density, evenDensity } from './normal.ts';
import { RUNS_ON, restDensity, type Source } from './source.ts';

/**
 * All taps shut, nothing flows: every gauge shows the pressure at rest but for its own error and height. Their level
 * speaks of the pump and its control, their disagreement of a gauge.
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
  datumM: number,
  motor: 'on' | 'off' | null,
): ClosedState {
  const read = restReadings(bar, gauges, datumM);
  const agreement = (faulty: string | null, share: number) => {
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
  };
  const sound = agreement(null, 0);
  return {
    likelihood: (source, effects) => {
      const faulty = effects.find((effect) => effect.gauge !== null);
      const { chance, mean, sd, any } = faulty
        ? agreement(faulty.gauge, faulty.change.gaugeShare ?? 0.2)
        : sound;
      const level = any ? (1 - SLIP) * restDensity(source, mean, sd) + SLIP / 6 : 1;
      return chance * level * motorChance(source, motor);
    },
    unlisted: sound.chance * (sound.any ? 1 / 6 : 1) * (motor ? 0.5 : 1),
  };
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
