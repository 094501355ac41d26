import { describe, expect, it } from 'vitest';
import {
  absorbancePerCm,
  CLASS_A_MJ_CM2,
  CLASS_B_MJ_CM2,
  doseForLogs,
  lampOutput,
  logCredit,
  uvDoseMjCm2,
  waterFactor,
} from '../../shared/hydraulics/uv.ts';

const unit = {
  ratedDoseMjCm2: 40,
  ratedFlowLpm: 40,
  flowLpm: 40,
  lampHours: 0,
  lampLifeH: 9000,
  uvtPercent: 95,
  sleeve: 1,
};

describe('UV against published figures', () => {
  it.each([
    [95, 0.0223],
    [90, 0.0458],
    [85, 0.0706],
    [80, 0.0969],
    [75, 0.1249],
  ])('%d %% transmittance is %d per cm of absorbance (Beer–Lambert)', (percent, absorbance) => {
    expect(Math.abs(absorbancePerCm(percent) - absorbance)).toBeLessThan(1e-4);
  });

  it('University of Guelph: 70 % through 1 cm is 0.155 per cm, and 20 % are left after 4.5 cm', () => {
    expect(Math.abs(absorbancePerCm(70) - 0.155)).toBeLessThan(1e-3);
    const depth = -Math.log10(0.2) / absorbancePerCm(70);
    expect(Math.abs(depth - 4.5)).toBeLessThan(0.05);
    // The page prints "80 % T" beside 0.2: that would be 0.6 cm.
    expect(Math.abs(-Math.log10(0.8) / absorbancePerCm(70) - 4.5)).toBeGreaterThan(3);
  });

  it.each([
    [95, 0.9504],
    [85, 0.8537],
    [75, 0.7604],
  ])(
    'Bolton & Linden water factor at %d %% and 2 cm is %d (formula from memory)',
    (percent, factor) => {
      expect(Math.abs(waterFactor(percent, 2) - factor)).toBeLessThan(5e-4);
    },
  );

  it('EPA 815-R-06-007 Table 1.4: 22 mJ/cm² for 4 log of Cryptosporidium and Giardia, 186 for viruses', () => {
    expect(doseForLogs.cryptosporidium.at(-1)).toBe(22);
    expect(doseForLogs.giardia.at(-1)).toBe(22);
    expect(doseForLogs.virus.at(-1)).toBe(186);
  });

  it('40 mJ/cm² earns 4 log of Cryptosporidium and only 0.5 log of viruses', () => {
    expect(logCredit('cryptosporidium', CLASS_A_MJ_CM2)).toBe(4);
    expect(logCredit('virus', CLASS_A_MJ_CM2)).toBe(0.5);
    expect(logCredit('virus', 38.9)).toBe(0);
    expect(logCredit('virus', 1e6)).toBe(4);
  });

  it('NSF/ANSI 55 class B earns no virus credit at all', () => {
    expect(CLASS_B_MJ_CM2).toBe(16);
    expect(logCredit('virus', CLASS_B_MJ_CM2)).toBe(0);
  });

  it('dose is intensity times time: half the flow doubles it, 10 mW/cm² for 4 s is 40 mJ/cm²', () => {
    expect(uvDoseMjCm2({ ...unit, flowLpm: 20 })).toBeCloseTo(80, 9);
    expect(uvDoseMjCm2(unit)).toBeCloseTo(10 * 4, 9);
  });

  it('a lamp at the end of its life gives about 70 % (common practice), and less after', () => {
    expect(lampOutput(9000, 9000)).toBeCloseTo(0.7, 12);
    expect(lampOutput(18_000, 9000)).toBeCloseTo(0.4, 12);
    expect(lampOutput(1e9, 9000)).toBe(0);
  });

  it('cloudy water and a fouled sleeve take from the dose, and rest gives no endless one', () => {
    expect(uvDoseMjCm2({ ...unit, uvtPercent: 75 })).toBeCloseTo((40 * 0.7604) / 0.9504, 1);
    expect(uvDoseMjCm2({ ...unit, sleeve: 0.5 })).toBeCloseTo(20, 9);
    expect(uvDoseMjCm2({ ...unit, flowLpm: 0 })).toBe(400);
  });
});
