import { describe, expect, it } from 'vitest';
import { resistanceFrom, resistanceLossPa } from '../../shared/hydraulics/cartridge.ts';
import { flowBesideBypass } from '../../shared/hydraulics/line/losses.ts';
import { loaded, stageState } from '../../shared/hydraulics/loading.ts';
import { lpmToM3s } from '../../shared/hydraulics/units.ts';
import { viscosityPaS, waterAt } from '../../shared/hydraulics/water.ts';

const at20 = waterAt(20);

describe('filters against published laws', () => {
  it('Darcy: a laminar filter of 20 kPa at 20 °C takes 30.3 kPa at 5 °C, as viscosity does in Perry’s and Chaplin’s tables', () => {
    const r = resistanceFrom(lpmToM3s(10), 20_000, 1);
    expect(Math.abs(resistanceLossPa(r, lpmToM3s(10), waterAt(5)) / 30_300 - 1)).toBeLessThan(
      0.005,
    );
    // Chaplin: 1.307 mPa·s at 10 °C over 1.002 at 20 °C.
    const at10 = resistanceLossPa(r, lpmToM3s(10), waterAt(10)) / 20_000;
    expect(Math.abs(at10 - 1.307 / 1.002)).toBeLessThan(0.002);
  });

  it('the square term doubles the flow to four times the drop, the linear one to twice', () => {
    const q = lpmToM3s(10);
    expect(resistanceLossPa(resistanceFrom(q, 20_000, 0), 2 * q, at20)).toBeCloseTo(80_000, 6);
    expect(resistanceLossPa(resistanceFrom(q, 20_000, 1), 2 * q, at20)).toBeCloseTo(40_000, 6);
  });

  it('Geankoplis Example 14.2-1: the cake law t/V = µαc/(2A²Δp)·V + µRm/(AΔp) is this linear term growing with V', () => {
    // From memory: A 0.0439 m², Δp 338 kPa, c 23.47 kg/m³, Kp 6.00e6 s/m⁶, B 6400 s/m³; α 1.863e11, Rm 1.063e11.
    const [area, dp, cs, mu] = [0.0439, 338_000, 23.47, 8.937e-4];
    const alpha = (6.0e6 * area ** 2 * dp) / (mu * cs);
    const medium = (6400 * area * dp) / mu;
    expect(Math.abs(alpha / 1.863e11 - 1)).toBeLessThan(0.002);
    expect(Math.abs(medium / 1.063e11 - 1)).toBeLessThan(0.002);
    // A clean medium of Rm at 25 °C as a stage, loaded with the cake of 5 L: the same drop by both ways.
    const clean = { linear: (viscosityPaS(20) * medium) / area, quadratic: 0 };
    const timesClean = 1 + (alpha * cs * 0.005) / (area * medium);
    const q = 1e-5;
    const byCake = (mu * q * ((alpha * cs * 0.005) / area + medium)) / area;
    const ours = resistanceLossPa(loaded(clean, timesClean), q, waterAt(25));
    expect(Math.abs(ours / byCake - 1)).toBeLessThan(0.005);
  });
});

describe('state of a stage', () => {
  const clean = resistanceFrom(lpmToM3s(20), 10_000, 0.7);

  it('two readings of one cartridge on different days, taps and temperatures tell the same state', () => {
    const states = [
      { lpm: 6, tempC: 8 },
      { lpm: 25, tempC: 22 },
    ].map(({ lpm, tempC }) => {
      const water = waterAt(tempC);
      const pa = resistanceLossPa(loaded(clean, 12), lpmToM3s(lpm), water);
      return stageState(clean, { pa, u: 2000 }, { m3s: lpmToM3s(lpm), u: 0 }, water, lpmToM3s(20));
    });
    for (const state of states) {
      expect(state.timesClean).toBeCloseTo(12, 9);
      expect(state.referenceDropPa).toBeCloseTo(0.7 * 12 * 10_000 + 0.3 * 10_000, 6);
    }
    expect(states[0]?.timesCleanU).toBeGreaterThan(states[1]?.timesCleanU ?? 0);
  });

  it('its uncertainty is that of a thousand drawn readings', () => {
    const [pa, u, q, uq] = [90_000, 4000, lpmToM3s(12), lpmToM3s(0.4)];
    const state = stageState(clean, { pa, u }, { m3s: q, u: uq }, at20, q);
    // A regular grid of normal quantiles stands for the draws, so that nothing is left to chance.
    const quantiles = [-1.28155, -0.5244, 0, 0.5244, 1.28155];
    const values = quantiles.flatMap((a) =>
      quantiles.map(
        (b) =>
          stageState(clean, { pa: pa + a * u, u }, { m3s: q + b * uq, u: uq }, at20, q).timesClean,
      ),
    );
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const spread = Math.sqrt(
      values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length,
    );
    const gridU = Math.sqrt(quantiles.reduce((sum, z) => sum + z * z, 0) / quantiles.length);
    expect(Math.abs(spread / gridU / state.timesCleanU - 1)).toBeLessThan(0.02);
  });

  it('of the flow alone, its uncertainty is the slope over the flow (JCGM 100:2008, 5.1.3)', () => {
    const [pa, q, step] = [20_000, lpmToM3s(12), lpmToM3s(1e-4)];
    const timesAt = (m3s: number) =>
      stageState(clean, { pa, u: 0 }, { m3s, u: 0 }, at20, q).timesClean;
    const slope = (timesAt(q + step) - timesAt(q - step)) / (2 * step);
    const state = stageState(clean, { pa, u: 0 }, { m3s: q, u: lpmToM3s(0.4) }, at20, q);
    expect(state.timesCleanU / (Math.abs(slope) * lpmToM3s(0.4))).toBeCloseTo(1, 6);
  });
});

describe('a bypass beside a stage', () => {
  it.each([
    [1e8, 1e12, 2e10],
    [0, 4e11, 4e11],
    [1e9, 0, 1e10],
    [1e8, 1e12, 1e14],
  ])('a %d, b %d, c %d: both ways cost the same and the flows add up', (a, b, c) => {
    const q = lpmToM3s(20);
    const through = flowBesideBypass(a, b, c, q);
    const round = q - through;
    expect(a * through + b * through ** 2).toBeCloseTo(c * round ** 2, -2);
    expect(through).toBeGreaterThanOrEqual(0);
    expect(through).toBeLessThanOrEqual(q * (1 + 1e-12));
  });
});
