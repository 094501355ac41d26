import type { Facts } from '../case/facts.ts';
import type { Readings } from '../case/values.ts';
import type { ResolvedOf, ResolvedPlant } from '../plant/resolved.ts';

/**
 * What a gauge can be wrong by, as standard uncertainties (JCGM 100:2008, 4.3.7: half-width / √3). The class is the
 * permitted error in per cent of range (EN 837-1); most of it is an offset the gauge keeps, part grows with the
 * reading, and a pointer is read to half a division.
 */
export interface GaugeError {
  readonly id: string;
  /** index in the plant's line */
  readonly at: number;
  readonly rangeBar: number;
  readonly heightM: number;
  readonly offsetBar: number;
  readonly gainShare: number;
  readonly readBar: number;
  /** class × range: what the maker allows in all */
  readonly permittedBar: number;
}

const ROOT_3 = Math.sqrt(3);
const OFFSET_PART = 0.8;
const GAIN_PART = 0.4;
const BAR_PER_M = 0.0979;

export function gaugesOf(plant: ResolvedPlant): GaugeError[] {
  return plant.line.flatMap((part, at) => {
    if (part.kind !== 'gauge') return [];
    const gauge: ResolvedOf<'gauge'> = part;
    const permittedBar = (gauge.rangeBar * gauge.classPercent) / 100;
    return [
      {
        id: gauge.id,
        at,
        rangeBar: gauge.rangeBar,
        heightM: gauge.heightM,
        offsetBar: (OFFSET_PART * permittedBar) / ROOT_3,
        gainShare: (GAIN_PART * gauge.classPercent) / 100 / ROOT_3,
        readBar: gauge.divisionBar / 2 / ROOT_3,
        permittedBar,
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
  readonly byGauge: ReadonlyMap<string, number>;
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
 * Offsets from the closed reading. A gauge that is under suspicion is compared with the others but does not
 * move their mean.
 */
export function offsetsOf(
  facts: Facts,
  gauges: readonly GaugeError[],
  datumM: number,
  suspected: string | null = null,
): Offsets | null {
  if (!facts.offsets) return null;
  const read = readGauges(gauges, facts.offsets);
  const trusted = read.filter((gauge) => gauge.id !== suspected);
  if (trusted.length === 0 || read.length < 2) return null;
  const level = (gauge: GaugeError) =>
    levelBar(gauge, Number(facts.offsets?.bar[gauge.id]), datumM);
  const mean = trusted.reduce((sum, gauge) => sum + level(gauge), 0) / trusted.length;
  return {
    byGauge: new Map(read.map((gauge) => [gauge.id, level(gauge) - mean])),
    commonBar: Math.sqrt(trusted.reduce((sum, g) => sum + g.offsetBar ** 2, 0)) / trusted.length,
  };
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
    const offset = offsets?.byGauge.get(gauge.id);
    const known = offset !== undefined;
    const spread = Math.hypot(
      gauge.readBar * (known ? Math.SQRT2 : 1),
      gauge.gainShare * bar,
      known ? 0 : gauge.offsetBar,
    );
    return { gauge, bar: levelBar(gauge, bar, datumM) - (offset ?? 0), ownBar: spread };
  });
}
