import { describe, expect, it } from 'vitest';
import { fitRun } from '../../shared/upkeep/fit.ts';
import { dayReached, resistanceOn } from '../../shared/upkeep/laws.ts';

/**
 * The published cake-filtration example: C. J. Geankoplis, Transport Processes and Unit Operations, 3rd ed., Example
 * 14.2-1 (calcium carbonate slurry at a constant 338 kPa; the runs of Ruth & Kempe). Table and answers from memory; they
 * agree with each other: 6400 + 3.00e6·5.009e-3 = 21 427 against 107.3/5.009e-3 = 21 421 s/m³.
 */
const litres = [0.498, 1.0, 1.501, 2.0, 2.498, 3.002, 3.506, 4.004, 4.502, 5.009];
const seconds = [4.4, 9.5, 16.3, 24.6, 34.7, 46.1, 59.0, 73.6, 89.4, 107.3];
const KP = 6.0e6;
const B = 6400;

/** dt/dV between neighbouring rows is the resistance at the mean volume, in s/m³ times Δp. */
const points = litres.slice(1).map((volume, i) => {
  const before = litres[i] ?? 0;
  const perM3 = ((seconds[i + 1] ?? 0) - (seconds[i] ?? 0)) / ((volume - before) / 1000);
  // Both times are written to a tenth of a second, evenly in half of it: u = 0.1/√12·√2.
  const u = 0.1 / Math.sqrt(6) / ((volume - before) / 1000);
  return {
    day: (volume + before) / 2,
    resistance: perM3,
    uByDrop: u,
    uByFlow: 0.01,
    housings: 0,
    perPa: 0,
  };
});

/** The source's own way: t/V is the mean resistance up to V, and for a cake it grows by half of Kp. */
const means = litres.map((volume, i) => ({
  ...{ day: volume, resistance: (seconds[i] ?? 0) / (volume / 1000) },
  ...{ uByDrop: 0.1 / Math.sqrt(12) / (volume / 1000), uByFlow: 0.01, housings: 0, perPa: 0 },
}));

describe('the loading laws on a published cake filtration', () => {
  const fit = fitRun({
    from: 0,
    points,
    start: { resistance: B, logSd: 0.5 },
    keptPa: 0,
    stills: [],
  });

  it('choose the cake among the classic laws', () => {
    const classic = ['cake', 'intermediate', 'standard', 'complete'];
    const laws = classic.map((id) => ({ id, share: fit?.laws[id] ?? 0 }));
    const best = laws.toSorted((a, b) => b.share - a.share)[0];
    expect(best?.id).toBe('cake');
    expect(best?.share).toBeGreaterThan(20 * Math.max(...laws.slice(1).map(({ share }) => share)));
  });

  it('give the published Kp within 2 % and the medium within 3 %', () => {
    const mean = fitRun({
      from: 0,
      points: means,
      start: { resistance: B, logSd: 0.5 },
      keptPa: 0,
      stills: [],
    });
    const cakes = mean?.courses.filter(({ law }) => law === 'cake') ?? [];
    const best = cakes.reduce((a, b) => (b.weight > a.weight ? b : a));
    const at = (volume: number) => resistanceOn(best.course, volume);
    expect(Math.abs(((at(5) - at(1)) * 2) / 4e-3 / KP - 1)).toBeLessThan(0.02);
    expect(Math.abs(at(0) / B - 1)).toBeLessThan(0.03);
  });

  it('foretell from the first six rows the volume at which the resistance has doubled again, within its interval', () => {
    const early = fitRun({
      ...{
        from: 0,
        points: points.slice(0, 5),
        start: { resistance: B, logSd: 0.5 },
        keptPa: 0,
        stills: [],
      },
    });
    const cake = early?.courses.filter(({ law }) => law === 'cake') ?? [];
    const best = cake.toSorted((a, b) => b.weight - a.weight)[0];
    const published = (36_400 - B) / KP;
    expect(Math.abs(dayReached(best!.course, 36_400) / 1000 / published - 1)).toBeLessThan(0.06);
  });
});
