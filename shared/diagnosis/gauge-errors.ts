import type { Facts } from '../case/facts.ts';
import type { Readings } from '../case/readings.ts';
import { BAR_PER_M } from '../common/water-column.ts';
import {
  type GaugeUncertainty,
  gaugeUncertainty,
  permissibleErrorBar,
} from '../hydraulics/gauge.ts';
import type { ResolvedPlant } from '../plant/resolved.ts';

/** A plant's gauge with its standard uncertainties. */
export interface GaugeError extends GaugeUncertainty {
  readonly id: string;
  /** index in the plant's line */
  readonly at: number;
  /** how many reducers stand before it: at rest only gauges with none between them agree */
  readonly zone: number;
  readonly rangeBar: number;
  readonly heightM: number;
  /** class × range: what the maker allows in all */
  readonly permittedBar: number;
}

export function gaugesOf(plant: ResolvedPlant): GaugeError[] {
  let zone = 0;
  return plant.line.flatMap((part, at) => {
    if (part.kind === 'pressure-reducer') zone += 1;
    if (part.kind !== 'gauge') return [];
    const { id, rangeBar, heightM } = part;
    return [
      {
        ...gaugeUncertainty(part),
        id,
        at,
        zone,
        rangeBar,
        heightM,
        permittedBar: permissibleErrorBar(part),
      },
    ];
  });
}

/** A reading lifted to the pump's height, with its offset against the others taken out. */
export interface LevelReading {
  readonly gauge: GaugeError;
  readonly bar: number;
  /** standard uncertainty of the reading by itself, and of what it shares with no other gauge */
  readonly ownBar: number;
}

/** The offset of each gauge against the mean of all, from the latest reading with taps closed; null without one. */
export interface Offsets {
  readonly byGauge: ReadonlyMap<string, { readonly offsetBar: number; readonly closedBar: number }>;
  /** what is left over of the common error, standard uncertainty */
  readonly commonBar: number;
}

export const levelBar = (gauge: GaugeError, bar: number, datumM: number): number =>
  bar + (gauge.heightM - datumM) * BAR_PER_M;

/** The gauges that were read in a state, in order along the line. */
export function readGauges(gauges: readonly GaugeError[], readings: Readings): GaugeError[] {
  return gauges.filter((gauge) => typeof readings.bar[gauge.id] === 'number');
}

/**
 * Offsets from the closed reading. A gauge that is under suspicion is compared with the others but does not move their
 * mean. A gauge taken for sound cannot be off by more than twice its class: such a reading was a slip and gives no offset.
 */
export function offsetsOf(
  facts: Facts,
  gauges: readonly GaugeError[],
  datumM: number,
  suspected?: string,
): Offsets | null {
  if (!facts.offsets) return null;
  const { bar } = facts.offsets;
  const all = readGauges(gauges, facts.offsets);
  const zones = [...new Set(all.map(({ zone }) => zone))].flatMap((zone) => {
    const here = all.filter((gauge) => gauge.zone === zone);
    return zoneOffsets(here, bar, datumM, suspected) ?? [];
  });
  if (zones.length === 0) return null;
  return {
    byGauge: new Map(zones.flatMap(({ byGauge }) => [...byGauge])),
    commonBar: Math.max(...zones.map(({ commonBar }) => commonBar)),
  };
}

/** The same of gauges with no reducer between them. */
function zoneOffsets(
  all: readonly GaugeError[],
  bar: Readings['bar'],
  datumM: number,
  suspected: string | undefined,
): Offsets | null {
  const level = (gauge: GaugeError) => levelBar(gauge, Number(bar[gauge.id]), datumM);
  const middle = median(all.filter(({ id }) => id !== suspected).map(level));
  const read = all.filter(
    (gauge) => gauge.id === suspected || Math.abs(level(gauge) - middle) <= 2 * gauge.permittedBar,
  );
  const trusted = read.filter((gauge) => gauge.id !== suspected);
  if (trusted.length === 0 || read.length < 2) return null;
  const mean = trusted.reduce((sum, gauge) => sum + level(gauge), 0) / trusted.length;
  return {
    byGauge: new Map(
      read.map((gauge) => [
        gauge.id,
        { offsetBar: level(gauge) - mean, closedBar: Number(bar[gauge.id]) },
      ]),
    ),
    commonBar: Math.sqrt(trusted.reduce((sum, g) => sum + g.offsetBar ** 2, 0)) / trusted.length,
  };
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? 0) + upper) / 2;
}

/** The readings of a state at the pump's height, offsets taken out where they are known. */
export function levelReadings(
  readings: Readings,
  gauges: readonly GaugeError[],
  offsets: Offsets | null,
  datumM: number,
): LevelReading[] {
  return readGauges(gauges, readings).map((gauge) => {
    const bar = Number(readings.bar[gauge.id]);
    const known = offsets?.byGauge.get(gauge.id);
    // What the closed reading showed too is out: only the gain over the difference is left.
    const spread = known
      ? Math.hypot(gauge.readingBar * Math.SQRT2, gauge.gain * (bar - known.closedBar))
      : Math.hypot(gauge.readingBar, gauge.gain * bar, gauge.offsetBar);
    return { gauge, bar: levelBar(gauge, bar, datumM) - (known?.offsetBar ?? 0), ownBar: spread };
  });
}
