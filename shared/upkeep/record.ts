import { type Taps, tapsKey } from '../case/taps.ts';
import { tellsOfWork } from '../case/work-done.ts';
import { toBar } from '../hydraulics/units.ts';

/** Measured beside the gauges; what upkeep makes of each, due dates know. */
const measured = ['flow', 'shut-off', 'precharge', 'cycle-times', 'lamp-hours', 'water-test'];
/** The questions whose answers a plant's record is made of. */
export const recordQuestions = ['plant', 'readings', 'work-done', ...measured];

/** The gauges as once read, pressures in bar; those that could not be read are left out. */
export interface GaugesRead {
  readonly at: string;
  readonly taps: unknown;
  readonly bar: Readonly<Record<string, number>>;
  readonly flowLpm?: number;
}

export interface Measured {
  readonly at: string;
  readonly question: string;
  readonly value: unknown;
}

export interface WorkDone {
  readonly at: string;
  readonly job: string;
  readonly parts?: readonly string[];
}

interface Answered {
  readonly question: string;
  readonly value: unknown;
  readonly at: string;
  /** where the answers of several cases come together, which one it belongs to */
  readonly caseRef?: string;
}

/**
 * An answer to the same question puts right the one before it only within the same round: half a day holds the longest
 * visit, and no plant is read again as a matter of course before the next day (common practice).
 */
const ROUND_MS = 12 * 3_600_000;

/**
 * What answers say of a plant over time, in their order: gauges read, other measurements, work done. What was put right
 * or taken back counts no more; the rule is in docs/upkeep.md.
 */
export function recordFrom(answers: readonly Answered[]): {
  history: (GaugesRead | Measured)[];
  done: WorkDone[];
} {
  const settled: Answered[] = [];
  const done: WorkDone[] = [];
  let sinceWork: Answered[] = [];
  for (const answer of answers) {
    if (tellsOfWork(answer)) {
      const { job, parts } = answer.value as Omit<WorkDone, 'at'>;
      done.push({ at: answer.at, job, ...(parts && { parts }) });
      // read before and after work is read twice, not put right
      settled.push(...sinceWork);
      sinceWork = [];
    } else if (answer.question === 'readings' || measured.includes(answer.question)) {
      sinceWork = [...sinceWork.filter((before) => !putsRight(answer, before)), answer];
    }
  }
  return { history: [...settled, ...sinceWork].flatMap(entryOf), done };
}

function putsRight(later: Answered, earlier: Answered): boolean {
  const apartMs = Math.abs(Date.parse(later.at) - Date.parse(earlier.at));
  return (
    later.question === earlier.question &&
    later.caseRef === earlier.caseRef &&
    apartMs < ROUND_MS &&
    (later.question !== 'readings' || !isReading(later.value) || tapsOf(later) === tapsOf(earlier))
  );
}

const isReading = (value: unknown): value is Reading => typeof value === 'object' && value !== null;
const tapsOf = ({ value }: Answered): string | null =>
  isReading(value) ? tapsKey(value.taps) : null;

function entryOf({ at, question, value }: Answered): (GaugesRead | Measured)[] {
  if (value === null) return [];
  if (question !== 'readings') return [{ at, question, value }];
  if (!isReading(value)) return [];
  const { taps, flowLpm } = value;
  const bar = pressuresInBar(value);
  // taken back, or nothing could be read: a place kept in the case, no point of the record
  if (Object.keys(bar).length === 0 && flowLpm === undefined) return [];
  return [{ at, taps, bar, ...(flowLpm !== undefined && { flowLpm }) }];
}

interface Reading extends Readonly<Record<string, unknown>> {
  readonly taps: Taps;
  readonly flowLpm?: number;
}

function pressuresInBar(value: Reading): Record<string, number> {
  const bar: Record<string, number> = {};
  for (const [unit, inBar] of Object.entries(toBar)) {
    const pressures = value[unit];
    if (typeof pressures !== 'object' || pressures === null) continue;
    for (const [gauge, read] of Object.entries(pressures)) {
      if (typeof read === 'number') bar[gauge] = inBar(read);
    }
  }
  return bar;
}
