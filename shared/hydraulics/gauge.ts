/**
 * What a pressure gauge may be wrong by. Pressures in bar, because a gauge's class and scale are; the arithmetic is the
 * same in any unit. A limit ±a without more knowledge counts as evenly spread: u = a/√3 (JCGM 100:2008, 4.3.7).
 */
export interface Gauge {
  /** length of the scale: top less bottom */
  readonly rangeBar: number;
  /** permissible error as a share of the range, percent (EN 837-1) */
  readonly classPercent: number;
  /** one division of the scale; read to half of it */
  readonly divisionBar: number;
}

const EVENLY = Math.sqrt(3);
/** Coverage factor for about 95 % (JCGM 100:2008, 6.3.3). */
export const COVERAGE = 2;

/** Permissible error: class × range, bar (EN 837-1:1996). */
export function permissibleErrorBar(gauge: Pick<Gauge, 'rangeBar' | 'classPercent'>): number {
  return (gauge.classPercent / 100) * gauge.rangeBar;
}

/** Standard uncertainties of one gauge. */
export interface GaugeUncertainty {
  /** of the error it keeps at every reading, bar */
  readonly offsetBar: number;
  /** of the error that grows with the reading, share of the reading */
  readonly gain: number;
  /** of reading it once, bar */
  readonly readingBar: number;
}

/**
 * The class does not say how much of the error is an offset and how much grows with the reading. Half of the variance is
 * given to each, so that at full scale both together are the class's own (our own choice, stated here).
 */
export function gaugeUncertainty(gauge: Gauge): GaugeUncertainty {
  const whole = permissibleErrorBar(gauge) / EVENLY;
  const half = whole / Math.SQRT2;
  return {
    offsetBar: half,
    gain: half / gauge.rangeBar,
    readingBar: gauge.divisionBar / 2 / EVENLY,
  };
}

/** How two readings were taken whose difference is wanted. */
export type DropReadings =
  /** two gauges, nothing known of their offsets */
  | { readonly kind: 'two-gauges' }
  /** two gauges, both read with all taps shut before: their offsets are known against each other */
  | { readonly kind: 'offsets-removed'; readonly closedBar: readonly [number, number] }
  /** one gauge moved from port to port: the same offset stands in both readings and goes out */
  | { readonly kind: 'one-gauge' };

/**
 * Standard uncertainty of the drop between two readings, bar.
 *
 * @param gauges the gauges read at the beginning and at the end (the same one twice for `one-gauge`)
 * @param openBar what they showed
 */
export function dropUncertaintyBar(
  gauges: readonly [Gauge, Gauge],
  openBar: readonly [number, number],
  how: DropReadings,
): number {
  const [first, second] = [gaugeUncertainty(gauges[0]), gaugeUncertainty(gauges[1])];
  const reading = Math.hypot(first.readingBar, second.readingBar);
  switch (how.kind) {
    case 'two-gauges':
      return Math.hypot(
        permissibleErrorBar(gauges[0]) / EVENLY,
        permissibleErrorBar(gauges[1]) / EVENLY,
        reading,
      );
    case 'offsets-removed':
      return Math.hypot(
        first.gain * (openBar[0] - how.closedBar[0]),
        second.gain * (openBar[1] - how.closedBar[1]),
        Math.SQRT2 * reading,
      );
    case 'one-gauge':
      return Math.hypot(first.gain * (openBar[0] - openBar[1]), reading);
  }
}

/** A pressure drop as it can be told. */
export interface Drop {
  readonly dropBar: number;
  /** half-width of a 95 % interval */
  readonly uncertaintyBar: number;
  /** within its uncertainty: it may be nothing, and it may be more */
  readonly tooSmall: boolean;
}

/**
 * The drop between two gauges: reading at the beginning less reading at the end, offsets and height taken out.
 *
 * @param heightPa pressure that the height from the first to the second gauge takes, in bar; 0 at the same height
 */
export function dropBetween(
  gauges: readonly [Gauge, Gauge],
  openBar: readonly [number, number],
  how: DropReadings,
  heightBar = 0,
): Drop {
  // With all taps shut both should show the same but for height: what they differ by is their offsets and the height.
  const same = how.kind === 'offsets-removed' ? how.closedBar[0] - how.closedBar[1] : heightBar;
  const dropBar = openBar[0] - openBar[1] - same;
  const uncertaintyBar = COVERAGE * dropUncertaintyBar(gauges, openBar, how);
  return { dropBar, uncertaintyBar, tooSmall: Math.abs(dropBar) < uncertaintyBar };
}
