import type { Facts } from '../../shared/case/facts.ts';
import type { Readings } from '../../shared/case/readings.ts';
import { type Taps, tapsKey } from '../../shared/case/taps.ts';
import {
  gaugesOf,
  levelBar,
  levelReadings,
  offsetsOf,
} from '../../shared/diagnosis/gauge-errors.ts';
import type { Result } from '../../shared/diagnosis/result.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import type { Part, Plant } from '../../shared/plant/schema.ts';
import { wordsOfPart } from '../common/part-name.ts';
import { cleanBand } from './clean-band.ts';

/**
 * What is drawn of a case, in bar at the height of the pump: so a line falls only where pressure is lost, not where the
 * pipe climbs. Pure data; geometry.ts makes coordinates of it.
 */
export interface Picture {
  readonly parts: readonly PicturePart[];
  /** the tap state of the open line and of the clean band */
  readonly taps: Taps;
  readonly clean: readonly {
    readonly lowBar: number;
    readonly bar: number;
    readonly highBar: number;
  }[];
  readonly closed: readonly PictureReading[];
  readonly open: readonly PictureReading[];
  readonly falls: readonly Fall[];
  readonly topBar: number;
}

export interface PicturePart {
  readonly id: string;
  readonly kind: Part['kind'];
  /** the end of its words' keys: "carbon" */
  readonly words: string;
  /** how likely the trouble sits here; null where nothing points to it */
  readonly probability: number | null;
  readonly cause: string | null;
}

export interface PictureReading {
  /** index of the gauge in `parts` */
  readonly at: number;
  /** what the gauge showed */
  readonly shownBar: number;
  /** the same at the pump's height, the gauge's own offset taken out for the open line */
  readonly bar: number;
  /** half-width of a 95 % interval */
  readonly uncertaintyBar: number;
}

export interface Fall {
  readonly from: number;
  readonly to: number;
  readonly dropBar: number;
  readonly uncertaintyBar: number;
  /** what clean parts would take at the same flow; null without a flow */
  readonly cleanBar: number | null;
  /** heavy: far more than clean; light: more than clean; none: nothing to see */
  readonly weight: 'heavy' | 'light' | 'none';
  readonly tooSmall: boolean;
}

/** Above these many times a clean drop, a fall is drawn heavy or light (common practice: 5 times is due). */
const HEAVY_TIMES = 5;
const LIGHT_TIMES = 2;
const COVER_95 = 1.96;

/** The part of a case's facts that is drawn. */
export type DrawnFacts = Pick<Facts, 'plant' | 'readings' | 'offsets'>;

/** Where the trouble may sit. */
export interface Likely {
  readonly cause: string;
  readonly parts: readonly { readonly id: string; readonly probability: number }[];
}

export function pictureOf(
  facts: DrawnFacts,
  segments: Result['segments'],
  likely: Likely | null,
): Picture {
  const { plant } = facts;
  const resolved = resolvePlant(plant).plant;
  const datumM = resolved.line.find((part) => part.kind === 'pump')?.heightM ?? 0.5;
  const gauges = gaugesOf(resolved);
  const taps = drawnTaps(facts);
  const openReadings = facts.readings.get(tapsKey(taps));
  const closedReadings = facts.readings.get('closed') ?? facts.offsets;
  const height = (index: number): number => {
    const part = resolved.line[index];
    if (!part) return datumM;
    return part.kind === 'tank' ? part.outletHeightM : part.heightM;
  };
  const lifted = (bar: number, index: number): number =>
    levelBar({ heightM: height(index) } as Parameters<typeof levelBar>[0], bar, datumM);
  const clean = cleanBand(plant, typeof taps === 'string' ? { open: 1 } : taps).map((point, i) => ({
    lowBar: lifted(point.lowBar, i),
    bar: lifted(point.bar, i),
    highBar: lifted(point.highBar, i),
  }));
  const readingsOf = (
    readings: Readings | null | undefined,
    corrected: boolean,
  ): PictureReading[] => {
    if (!readings) return [];
    const offsets = corrected ? offsetsOf(facts as Facts, gauges, datumM) : null;
    return levelReadings(readings, gauges, offsets, datumM).map(({ gauge, bar, ownBar }) => ({
      at: gauge.at,
      shownBar: Number(readings.bar[gauge.id]),
      bar,
      uncertaintyBar: COVER_95 * ownBar,
    }));
  };
  const closed = readingsOf(closedReadings, false);
  const open = readingsOf(openReadings, true);
  const most = Math.max(
    1,
    ...clean.map((point) => point.highBar),
    ...[...closed, ...open].map((reading) => reading.bar + reading.uncertaintyBar),
  );
  return {
    parts: partsOf(plant, likely),
    taps,
    clean,
    closed,
    open,
    falls: fallsOf(plant, segments, taps),
    topBar: Math.ceil(most * 2) / 2,
  };
}

/** The open state read last; where none was read, one ordinary tap. */
function drawnTaps(facts: DrawnFacts): Taps {
  const read = [...facts.readings.values()].filter(
    ({ taps, bar }) => taps !== 'closed' && Object.values(bar).some((one) => one !== 'unknown'),
  );
  return read.at(-1)?.taps ?? { open: 1 };
}

/** Less likely places are not marked: a picture that marks everything marks nothing. */
const LEAST_MARKED = 0.2;

function partsOf(plant: Plant, likely: Likely | null): PicturePart[] {
  const share = (id: string): number | null => {
    const probability = likely?.parts.find((part) => part.id === id)?.probability ?? 0;
    return probability >= LEAST_MARKED ? probability : null;
  };
  return plant.line.map((part) => ({
    id: part.id,
    kind: part.kind,
    words: wordsOfPart(part),
    probability: share(part.id),
    cause: share(part.id) === null ? null : (likely?.cause ?? null),
  }));
}

function fallsOf(plant: Plant, segments: Result['segments'], taps: Taps): Fall[] {
  const at = (id: string): number => plant.line.findIndex((part) => part.id === id);
  return segments
    .filter((segment) => segment.measured && tapsKey(segment.taps) === tapsKey(taps))
    .map(({ from, to, dropBar, uncertaintyBar, timesClean, tooSmall }) => ({
      from: at(from),
      to: at(to),
      dropBar,
      uncertaintyBar,
      cleanBar: timesClean ? dropBar / timesClean : null,
      weight: tooSmall ? ('none' as const) : weightOf(timesClean),
      tooSmall,
    }))
    .filter((fall) => fall.from >= 0 && fall.to >= 0);
}

function weightOf(timesClean: number | null): Fall['weight'] {
  if (timesClean === null || timesClean < LIGHT_TIMES) return 'none';
  return timesClean >= HEAVY_TIMES ? 'heavy' : 'light';
}
