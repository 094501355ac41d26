import type { Ranked, Score } from './score.ts';

/** A share with the number it is of. */
export interface Share {
  readonly share: number;
  readonly of: number;
}

export const shareOf = (flags: readonly boolean[]): Share => ({
  of: flags.length,
  share: flags.filter(Boolean).length / Math.max(1, flags.length),
});

export interface Hits {
  readonly first: Share;
  readonly three: Share;
  readonly both: Share;
}

const hits = (ranked: readonly Ranked[]): Hits => ({
  first: shareOf(ranked.map((r) => r.first)),
  three: shareOf(ranked.map((r) => r.three)),
  both: shareOf(ranked.flatMap((r) => (r.both === null ? [] : [r.both]))),
});

/** One of ten equal bins of probability: what was said, and how often it was so. */
export interface Bin {
  readonly from: number;
  readonly count: number;
  readonly said: number;
  readonly seen: number;
}

/** Reliability in ten equal bins and the expected calibration error Σ n/N·|said − seen| (Guo et al. 2017). */
export function calibration(claims: readonly (readonly [number, boolean])[]): {
  bins: Bin[];
  error: number;
} {
  const bins = Array.from({ length: 10 }, (_, b): Bin => {
    const inside = claims.filter(([p]) => Math.min(9, Math.floor(p * 10)) === b);
    const count = inside.length;
    return {
      from: b / 10,
      count,
      said: mean(inside.map(([p]) => p)),
      seen: mean(inside.map(([, is]) => (is ? 1 : 0))),
    };
  });
  const error = bins.reduce(
    (sum, b) => sum + (b.count / Math.max(1, claims.length)) * Math.abs(b.said - b.seen),
    0,
  );
  return { bins, error };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, v) => sum + v, 0) / Math.max(1, values.length);

/** The value below which the share lies (nearest rank). */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0;
}

/** Of the worlds with one fault: true cause → cause named first → how many. */
function confusion(scores: readonly Score[]): Map<string, Map<string, number>> {
  const table = new Map<string, Map<string, number>>();
  for (const { sought, tool } of scores) {
    if (sought.length > 1) continue;
    const cause = sought[0] ?? 'nothing-wrong';
    const row = table.get(cause) ?? new Map<string, number>();
    table.set(cause, row);
    row.set(tool.named, (row.get(tool.named) ?? 0) + 1);
  }
  return table;
}

/** All figures of a run. */
export function figuresOf(scores: readonly Score[]) {
  const costs = scores.flatMap(({ cost }) => (cost ? [cost] : []));
  const small = costs.flatMap((c) => (c.cheapest === null ? [] : [{ ...c, cheapest: c.cheapest }]));
  const thumbed = costs.flatMap((c) => (c.thumb === null ? [] : [{ ...c, thumb: c.thumb }]));
  const claims = scores.flatMap((s) => s.claims.map(([, p, is]) => [p, is] as const));
  const firsts = scores.map(({ tool, claims: all }) => {
    const claim = all.find(([cause]) => cause === tool.named);
    return [claim?.[1] ?? 0, tool.first] as const;
  });
  const times = scores.flatMap((s) => s.times);
  const total = (c: { asking: number; plan: number }) => c.asking + c.plan;
  const byGauges = [...new Set(scores.map((s) => s.gauges))].sort().map((gauges) => {
    const some = scores.filter((s) => s.gauges === gauges);
    return {
      gauges,
      worlds: some.length,
      tool: hits(some.map((s) => s.tool)),
      own: hits(some.map((s) => s.own)),
    };
  });
  return {
    worlds: scores.length,
    byGauges,
    tool: hits(scores.map((s) => s.tool)),
    own: hits(scores.map((s) => s.own)),
    one: hits(scores.filter((s) => s.sought.length === 1).map((s) => s.tool)),
    two: hits(scores.filter((s) => s.sought.length === 2).map((s) => s.tool)),
    none: hits(scores.filter((s) => s.sought.length === 0).map((s) => s.tool)),
    thumb: hits(scores.flatMap((s) => (s.thumb ? [s.thumb] : []))),
    toolWithTwoGauges: hits(scores.filter((s) => s.thumb).map((s) => s.tool)),
    calibration: calibration(claims),
    calibrationOfFirst: calibration(firsts),
    questions: {
      median: quantile(
        scores.map((s) => s.questions),
        0.5,
      ),
      p90: quantile(
        scores.map((s) => s.questions),
        0.9,
      ),
    },
    cost: {
      worlds: costs.length,
      asking: mean(costs.map((c) => c.asking)),
      plan: mean(costs.map((c) => c.plan)),
      tool: mean(costs.map(total)),
      usual: mean(costs.map((c) => c.usual)),
      ofUsual: mean(costs.map(total)) / mean(costs.map((c) => c.usual)),
      known: mean(costs.map((c) => c.known)),
    },
    againstCheapest: {
      worlds: small.length,
      plan: mean(small.map((c) => c.plan)),
      cheapest: mean(small.map((c) => c.cheapest)),
    },
    againstThumb: {
      worlds: thumbed.length,
      tool: mean(thumbed.map(total)),
      thumb: mean(thumbed.map((c) => c.thumb)),
    },
    confusion: confusion(scores),
    milliseconds: {
      p50: quantile(times, 0.5),
      p95: quantile(times, 0.95),
      most: Math.max(0, ...times),
    },
  };
}

export type Figures = ReturnType<typeof figuresOf>;
