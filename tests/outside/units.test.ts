import { describe, expect, it } from 'vitest';
import * as units from '../../shared/hydraulics/units.ts';

// NIST SP 811 (2008 ed., Thompson & Taylor), Appendix B.8 and B.9, read in a transcription.
describe('unit conversions against NIST SP 811', () => {
  it.each([
    ['1 psi is 6894.757 Pa', units.PA_PER_PSI, 6894.757],
    ['1 kPa is 0.01 bar', units.kpaToBar(1), 0.01],
    ['1 ft of water is 2989.067 Pa', units.PA_PER_FOOT_WATER, 2989.067],
    ['1 m of water is 9806.65 Pa', units.PA_PER_M_WATER, 9806.65],
    ['1 US gallon is 3.785412 L', units.L_PER_US_GALLON, 3.785412],
    ['1 imperial gallon is 4.54609 L', units.L_PER_IMPERIAL_GALLON, 4.54609],
    ['1 US cup is 236.5882 mL', units.ML_PER_US_CUP, 236.5882],
    ['1 US fluid ounce is 29.57353 mL', units.ML_PER_US_FLUID_OUNCE, 29.57353],
    ['1 hp is 745.6999 W', units.W_PER_HORSEPOWER, 745.6999],
    ['1 gpm is 6.30902e-5 m³/s', units.lpmToM3s(units.gpmToLpm(1)), 6.30902e-5],
  ])('%s', (_, ours, published) => {
    expect(Math.abs(ours / published - 1)).toBeLessThan(1e-6);
  });

  it('58 psi is 4 bar and 11.6 psi is 0.8 bar, as a technician reads them', () => {
    expect(units.psiToBar(58)).toBeCloseTo(4, 2);
    expect(units.psiToBar(11.6)).toBeCloseTo(0.8, 3);
  });

  it('a foot of conventional water is not the 2.31 ft/psi of water at 62 °F: they differ by 0.1 %', () => {
    const conventional = units.PA_PER_PSI / units.PA_PER_FOOT_WATER;
    expect(conventional).toBeCloseTo(2.306659, 6);
    // Conversion chart, Attachment 5A, New Zealand Digital Library: 2.309 ft/psi at 62 °F.
    expect(Math.abs(conventional - 2.309) / 2.309).toBeGreaterThan(0.0009);
  });

  it('the 7.5 gal/ft³ of a published cistern table is 0.26 % more than 7.4805', () => {
    const exact = (units.M_PER_FOOT ** 3 * 1000) / units.L_PER_US_GALLON;
    expect(exact).toBeCloseTo(7.4805, 4);
    expect(7.5 / exact - 1).toBeCloseTo(0.0026, 4);
  });
});
