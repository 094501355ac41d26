import { describe, expect, it } from 'vitest';
import { closedState, restReadings } from '../../shared/diagnosis/closed-state.ts';
import { density, evenDensity } from '../../shared/diagnosis/normal.ts';
import { restDensity, type Source } from '../../shared/diagnosis/source.ts';
import { along, effect, gauge, sourceWith } from './made-line.ts';

/** One reading in sixty is a slip; a gauge that slipped shows anything in its range. */
const SLIP = 1 / 60;
const gauges = [
  gauge(1, { heightM: 1 }),
  gauge(3, { rangeBar: 6, offsetBar: 0.04, readingBar: 0.03 }),
  gauge(5, { rangeBar: 16, permittedBar: 0.4 }),
];
const bar = { G1: 3.2, G3: 3.25, G5: 3.4 };
/** lifted to a datum of 0.5 m: G1 by half a metre, the others down by as much */
const level = [3.2 + 0.5 * 0.0979, 3.25 - 0.5 * 0.0979, 3.4 - 0.5 * 0.0979] as const;
const sds = [Math.hypot(0.06, 0.05), 0.05, Math.hypot(0.06, 0.05)] as const;
const source = sourceWith();

const agreeing = (reads: readonly number[], mean: number) =>
  reads
    .slice(1)
    .reduce(
      (so, i) =>
        so *
        ((1 - SLIP) * density(level[i] ?? 0, mean, sds[i] ?? 0) +
          SLIP / (gauges[i]?.rangeBar ?? 0)),
      1,
    );
const levelOf = (mean: number, sd: number, of: Source = source) =>
  (1 - SLIP) * restDensity(of, mean, sd) + SLIP / 6;

describe('gauges read with all taps shut', () => {
  it('are lifted to the pump’s height, unread ones left out', () => {
    const read = restReadings({ ...bar, G3: 'unknown' }, gauges, 0.5);
    expect(read.map(({ gauge: { id } }) => id)).toEqual(['G1', 'G5']);
    expect(read[0]?.bar).toBeCloseTo(level[0], 12);
    expect(read[1]?.bar).toBeCloseTo(level[2], 12);
    expect(read[0]?.sd).toBeCloseTo(sds[0], 12);
  });

  const mean = (level[0] + level[1] + level[2]) / 3;
  const sd = Math.hypot(...sds) / 3;

  it('agree within their errors about a level that source and control give', () => {
    const { likelihood, unlisted } = closedState(bar, gauges, { datumM: 0.5, reducers: [] }, null);
    const expected = agreeing([0, 1, 2], mean) * levelOf(mean, sd);
    expect(likelihood(source, [effect()])).toBeCloseTo(expected, 9);
    expect(unlisted).toBeCloseTo(agreeing([0, 1, 2], mean) / 6, 12);
  });

  it('a gauge under suspicion moves no mean and is off by twice its class at the least', () => {
    const { likelihood } = closedState(bar, gauges, { datumM: 0.5, reducers: [] }, null);
    const trusted = (level[0] + level[1]) / 2;
    const off = level[2] - trusted;
    const odd = (share: number) => {
      const most = Math.max(share * 16, 1.2);
      return 0.5 * (evenDensity(off, 0.8, most, sds[2]) + evenDensity(-off, 0.8, most, sds[2]));
    };
    const rest = agreeing([0, 1], trusted) * levelOf(trusted, Math.hypot(sds[0], sds[1]) / 2);
    for (const [gaugeShare, share] of [
      [0.3, 0.3],
      [undefined, 0.2],
      [0.01, 0.01],
    ] as const) {
      const faulty = effect({ gauge: 'G5', change: { ...(gaugeShare && { gaugeShare }) } });
      expect(likelihood(source, [effect(), faulty])).toBeCloseTo(rest * odd(share), 9);
    }
  });

  it('one that stands apart is better told as faulty than as sound', () => {
    const { likelihood } = closedState(
      { ...bar, G5: 4.6 },
      gauges,
      { datumM: 0.5, reducers: [] },
      null,
    );
    const faulty = effect({ gauge: 'G5', change: { gaugeShare: 0.3 } });
    expect(likelihood(source, [faulty])).toBeGreaterThan(likelihood(source, []));
    // below the others as well as above them
    const under = closedState({ ...bar, G5: 2 }, gauges, { datumM: 0.5, reducers: [] }, null);
    expect(under.likelihood(source, [faulty])).toBeGreaterThan(under.likelihood(source, []));
  });

  it('none read, or only the suspected one, leaves the level untold', () => {
    const none = closedState({}, gauges, { datumM: 0.5, reducers: [] }, null);
    expect(none.likelihood(source, [])).toBe(1);
    expect(none.unlisted).toBe(1);
    const alone = closedState({ G5: 3.4 }, gauges, { datumM: 0.5, reducers: [] }, null);
    const faulty = effect({ gauge: 'G5', change: { gaugeShare: 0.3 } });
    const off = level[2];
    expect(alone.likelihood(source, [faulty])).toBeCloseTo(
      0.5 * (evenDensity(off, 0.8, 4.8, sds[2]) + evenDensity(-off, 0.8, 4.8, sds[2])),
      12,
    );
    expect(alone.likelihood(source, [])).toBeCloseTo(levelOf(off, sds[2]), 12);
  });
});

describe('the motor with all taps shut', () => {
  it.each<[string, Partial<Source>, number]>([
    ['stands still but for the moments after a draw', {}, 0.06],
    ['never stops when told so', { neverStops: true }, 0.9],
    ['under a switch it cannot satisfy runs on', { raw: along(() => 3.4) }, 0.9],
    [
      'under a drive that cannot reach its set pressure runs on in half of all',
      { raw: along(() => 3.4), control: 'variable-speed' },
      0.48,
    ],
    [
      'under a controller has no pressure to reach',
      { raw: along(() => 3.4), control: 'flow-controller' },
      0.06,
    ],
    ['runs dry', { gives: 'runs-dry' }, 0.9],
    ['that only hums is off', { gives: 'hums' }, 0.06],
    ['without a control runs', { control: 'none' }, 0.9],
    ['starts again for a leak', { leakLpm: 0.2 }, 0.3],
    ['starts again for water that passes back', { backLeakLpm: 0.2 }, 0.3],
  ])('%s', (_, differs, on) => {
    const of = sourceWith(differs);
    const chance = (motor: 'on' | 'off') =>
      closedState({}, gauges, { datumM: 0, reducers: [] }, motor).likelihood(of, []);
    expect(chance('on')).toBeCloseTo(on, 12);
    expect(chance('off')).toBeCloseTo(1 - on, 12);
  });

  it('is as likely either way under something not listed', () => {
    expect(closedState({}, gauges, { datumM: 0, reducers: [] }, 'on').unlisted).toBe(0.5);
  });
});
