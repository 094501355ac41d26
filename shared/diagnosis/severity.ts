import type { Change, Span } from '../ruleset/cause.ts';
import type { Suspect } from './suspects.ts';

/** A change with every range settled on one number, and the chance of that severity given the cause. */
export interface Severity {
  readonly weight: number;
  /** how far the true value may be from this one, as a share of it (half the step to the next severity) */
  readonly spread: number;
  readonly change: PointChange;
}

export type PointChange = {
  readonly [K in keyof Omit<Change, 'share'>]?: Change[K] extends Span | undefined
    ? number
    : Change[K];
};

/** Neighbouring severities differ by about this factor, so that their spreads overlap without gaps. */
const STEP = 2;

/** A suspect's ways and severities; a cause that changes nothing hydraulic has the one severity that changes nothing. */
/** @param most severities of a way at the most, by its share of all ways; fewer are spread wider */
export function severitiesOf(suspect: Suspect, most: (share: number) => number): Severity[] {
  const { changes, scale } = suspect.table;
  if (changes.length === 0) return [{ weight: 1, spread: 0, change: {} }];
  const total = changes.reduce((sum, change) => sum + change.share, 0);
  return changes.flatMap(({ share, ...spans }) => {
    const wanted = stepsOf(Object.values(spans));
    const steps = Math.min(wanted, most(share / total));
    return Array.from({ length: steps }, (_, i) => ({
      weight: share / total / steps,
      spread: wanted === 1 ? 0.1 : Math.min(0.8, (0.3 * wanted) / steps),
      change: Object.fromEntries(
        Object.entries(spans).map(([key, span]) => [
          key,
          isRange(span) ? along(span, (i + 0.5) / steps, scale) : span,
        ]),
      ) as PointChange,
    }));
  });
}

const isRange = (span: unknown): span is [number, number] => Array.isArray(span);

/** As many severities as the widest range needs in steps of STEP. */
function stepsOf(spans: readonly unknown[]): number {
  const steps = spans.filter(isRange).map(([from, to]) => {
    const sameSign = from * to > 0;
    return sameSign ? Math.ceil(Math.abs(Math.log(to / from)) / Math.log(STEP)) : 4;
  });
  return Math.max(1, ...steps, spans.some(isRange) ? 3 : 1);
}

function along(
  [from, to]: readonly [number, number],
  share: number,
  scale: 'log' | 'linear',
): number {
  if (scale === 'log' && from * to > 0) return from * (to / from) ** share;
  return from + (to - from) * share;
}
