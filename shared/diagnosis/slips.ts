import type { Facts } from '../case/facts.ts';
import type { Answered } from './answered.ts';
import { restReadings, SLIP } from './closed-state.ts';
import { type GaugeError, levelReadings, median, offsetsOf } from './gauge-errors.ts';
import type { Model } from './model.ts';

/** One reading that may have been a slip. */
export interface Slip {
  /** key of the tap state it was read in */
  readonly state: string;
  readonly gauge: string;
  /** chance of a slip, per bar of what it may come out at */
  readonly density: number;
}

/** A disagreement of so many standard deviations makes one ask whether a reading was a slip. */
const ODD = 2.5;
/** A pointer is misread, with water running, once in a hundred readings (common practice). */
const MISREAD = 1 / 100;

/**
 * Readings that go so badly with the others that they may be slips: with all taps closed, one far off the rest; with
 * water running, a rise along the line, by either of its two gauges. A gauge wrong for good is another matter: it shows
 * in every state.
 */
export function slipsOf(model: Model, facts: Facts, answered: Answered): Slip[] {
  return [...closedSlips(model, facts), ...openSlips(model, facts, answered)];
}

const slip = (state: string, { id, rangeBar }: GaugeError, chance: number): Slip => ({
  state,
  gauge: id,
  density: chance / rangeBar,
});

function closedSlips({ gauges, curves }: Model, { offsets }: Facts): Slip[] {
  if (!offsets) return [];
  const read = restReadings(offsets.bar, gauges, curves.datumM);
  return read
    .filter((one) => {
      const others = read.filter((r) => r !== one && r.gauge.zone === one.gauge.zone);
      const middle = median(others.map((r) => r.bar));
      return others.length > 0 && Math.abs(one.bar - middle) > ODD * Math.SQRT2 * one.sd;
    })
    .map(({ gauge }) => slip('closed', gauge, SLIP));
}

function openSlips({ gauges, curves }: Model, facts: Facts, { readings }: Answered): Slip[] {
  const offsets = offsetsOf(facts, gauges, curves.datumM);
  return readings.flatMap(([state, spoken]) => {
    if (spoken.taps === 'closed') return [];
    const level = levelReadings(spoken, gauges, offsets, curves.datumM);
    const odd = new Set<GaugeError>();
    level.forEach((to, i) => {
      const from = level[i - 1];
      if (!from || to.bar - from.bar <= ODD * Math.hypot(from.ownBar, to.ownBar)) return;
      odd.add(from.gauge).add(to.gauge);
    });
    return [...odd].map((gauge) => slip(state, gauge, MISREAD));
  });
}
