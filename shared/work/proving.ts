import type { RankedCause, SegmentReading } from '../diagnosis/result.ts';

/** What is known of the plant before or after the work: the part of a diagnosis that proves something. */
export interface Measured {
  readonly causes: readonly Pick<RankedCause, 'id' | 'probability'>[];
  readonly segments: readonly SegmentReading[];
}

export interface Proof {
  readonly outcome: 'cured' | 'better' | 'no-change' | 'worse' | 'not-measured';
  /** causes of the same block still about even or likelier, the cause worked on first where it is one of them */
  readonly left: readonly { readonly id: string; readonly probability: number }[];
  /** the segment worked on, before and after: how many times a clean one's drop at the same flow */
  readonly timesClean: { readonly before: number; readonly after: number } | null;
}

/** Below this a cause is unlikely, from this on about even: the words used for probabilities everywhere. */
const UNLIKELY = 0.1;
export const ABOUT_EVEN = 0.35;
/** Odds fallen this many times are better beyond doubt, where no segment was read before and after (Jeffreys: strong). */
const CLEAR_FALL = 10;
/** From this many times a clean one's drop on a stage counts as blocked (common practice). */
const BLOCKED_TIMES = 5;

/**
 * Compares the readings after a job with those before it. Two measurements differ when their 95 % intervals do not
 * meet; resistances are compared over a clean part's at the same flow, so that different flows do not matter.
 *
 * @param after null when nothing was measured with water running since the work
 * @param cause what the job was to end
 * @param part where it was worked on
 * @param counts whether a cause bears on the same trouble; others are for their own job
 * @param signStays what the cause shows itself by was seen again after the work
 */
export function proveWork(
  before: Measured,
  after: Measured | null,
  cause: string | null,
  part: string | null,
  counts: (cause: string) => boolean = () => true,
  signStays = false,
): Proof {
  if (!after) return { outcome: 'not-measured', left: [], timesClean: null };
  const was = segmentOf(before, part);
  const is = segmentOf(after, part);
  const timesClean = was && is ? { before: middle(was), after: middle(is) } : null;
  const left = after.causes
    .filter(
      ({ id, probability }) => counts(id) && probability >= (id === cause ? UNLIKELY : ABOUT_EVEN),
    )
    .toSorted(
      (a, b) => Number(b.id === cause) - Number(a.id === cause) || b.probability - a.probability,
    )
    .map(({ id, probability }) => ({ id, probability }));
  return {
    outcome: outcomeOf(was, is, left, cause, fallOf(cause, before, after), signStays),
    left,
    timesClean,
  };
}

function outcomeOf(
  was: Interval | null,
  is: Interval | null,
  left: Proof['left'],
  cause: string | null,
  fall: number,
  signStays: boolean,
): Proof['outcome'] {
  // a bypass shut again takes more than it did, but no more than a clean part
  if (was && is && is.low > Math.max(1, was.high)) return 'worse';
  const isGone = !left.some(({ id }) => id === cause);
  // work done anew makes its cause unlikely, but not while the part still surely takes what a blocked one does
  const isBlocked = is !== null && is.low >= BLOCKED_TIMES;
  if (isGone && left.length === 0 && !isBlocked && !signStays) return 'cured';
  // read on both sides of the work, the part itself tells; that another cause is blamed now changes nothing
  const isBetter = was && is ? is.high < was.low : !signStays && (isGone || fall >= CLEAR_FALL);
  return isBetter ? 'better' : 'no-change';
}

/** How many times the odds of the cause have fallen. */
function fallOf(cause: string | null, before: Measured, after: Measured): number {
  const odds = ({ causes }: Measured) => {
    const p = causes.find(({ id }) => id === cause)?.probability ?? 0;
    return p / Math.max(1e-9, 1 - p);
  };
  return odds(before) / Math.max(1e-9, odds(after));
}

interface Interval {
  readonly low: number;
  readonly high: number;
}

const middle = ({ low, high }: Interval): number => (low + high) / 2;

/** How many times a clean drop the part's segment takes, as an interval; null when it was not read with a flow. */
function segmentOf({ segments }: Measured, part: string | null): Interval | null {
  const read = segments.filter(
    ({ parts, measured, timesClean }) =>
      measured && timesClean !== null && part !== null && parts.includes(part),
  );
  const segment = read[0];
  if (!segment || segment.timesClean === null || segment.dropBar <= 0) return null;
  const perBar = segment.timesClean / segment.dropBar;
  return {
    low: Math.max(0, segment.dropBar - segment.uncertaintyBar) * perBar,
    high: (segment.dropBar + segment.uncertaintyBar) * perBar,
  };
}
