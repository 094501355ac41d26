import { describe, expect, it } from 'vitest';
import { chlorineDose, chlorineMgPerLitre, powderGrams } from '../../shared/hydraulics/chlorine.ts';
import {
  L_PER_IMPERIAL_GALLON,
  L_PER_US_GALLON,
  ML_PER_US_CUP,
  ML_PER_US_FLUID_OUNCE,
} from '../../shared/hydraulics/units.ts';

describe('chlorine against published doses', () => {
  it('enHealth, rainwater tanks 5.2: 40 mL of 12.5 % in 1000 L is 5 mg/L', () => {
    expect(chlorineDose(1000, 12.5, 5).millilitres).toBeCloseTo(40, 12);
  });

  it('enHealth: 7 g of 75 % powder in 1000 L is about 5 mg/L', () => {
    expect(Math.abs(powderGrams(1000, 75, 5) - 7)).toBeLessThan(0.4);
  });

  it.each([
    [1000, [8, 16, 40]],
    [7500, [60, 120, 300]],
    [16_000, [128, 256, 640]],
    [30_000, [240, 480, 1200]],
  ])('NSW Health table 2: %d L take %j mL of 12.5 %% for 1, 2 and 5 mg/L', (litres, ml) => {
    expect([1, 2, 5].map((dose) => chlorineDose(litres, 12.5, dose).millilitres)).toEqual(
      ml.map((value) => expect.closeTo(value, 9)),
    );
  });

  it.each([
    [1000, [2, 3, 8]],
    [10_000, [15, 31, 77]],
    [16_000, [25, 49, 123]],
    [30_000, [46, 92, 231]],
  ])('NSW Health table 3: %d L take %j g of 65 %% powder for 1, 2 and 5 mg/L', (litres, grams) => {
    [1, 2, 5].forEach((dose, i) => {
      expect(Math.abs(powderGrams(litres, 65, dose) - (grams[i] ?? 0))).toBeLessThan(0.55);
    });
  });

  it('Logan City Council: 12.5 mL of 4 % or 4 mL of 12.5 % in 100 L are 5 mg/L both', () => {
    expect(chlorineMgPerLitre(12.5, 4, 100)).toBeCloseTo(5, 12);
    expect(chlorineMgPerLitre(4, 12.5, 100)).toBeCloseTo(5, 12);
  });

  it('CDC dug well: 135 cups of 5.25 % in 30 ft of 5 ft diameter is the 100 mg/L class', () => {
    const gallons = Math.PI * 2.5 ** 2 * 30 * 7.4805;
    const mgL = chlorineMgPerLitre(135 * ML_PER_US_CUP, 5.25, gallons * L_PER_US_GALLON);
    expect(Math.abs(mgL - 100.5)).toBeLessThan(0.5);
  });

  it('CDC cistern: 4 cups in 100 gal are not the stated 100 ppm but 131; 3 cups would be 98', () => {
    const mgL = (cups: number) =>
      chlorineMgPerLitre(cups * ML_PER_US_CUP, 5.25, 100 * L_PER_US_GALLON);
    expect(mgL(4)).toBeCloseTo(131.2, 0);
    expect(mgL(3)).toBeCloseTo(98.4, 0);
  });

  it.each([
    [4, 0.019, 1.1],
    [6, 0.042, 2.4],
    [8, 0.072, 4.2],
  ])(
    'Alberta Agdex 716 (A10): %d in casing, %d L of 5.25 %% in %d imp gal is 200 mg/L',
    (_, litres, gallons) => {
      const mgL = chlorineMgPerLitre(litres * 1000, 5.25, gallons * L_PER_IMPERIAL_GALLON);
      expect(Math.abs(mgL / 200 - 1)).toBeLessThan(0.02);
    },
  );

  it.each([
    [6, 2, 1.47],
    [8, 3.5, 2.61],
    [10, 5, 4.08],
  ])(
    'South Dakota DOH: %d in well, %d fl oz of 5.25 %% per 10 ft is about 50 mg/L',
    (_, ounces, galPerFt) => {
      const litres = galPerFt * 10 * L_PER_US_GALLON;
      const mgL = chlorineMgPerLitre(ounces * ML_PER_US_FLUID_OUNCE, 5.25, litres);
      expect(Math.abs(mgL / 50 - 1)).toBeLessThan(0.12);
    },
  );
});

describe('waiting, flushing, refusing', () => {
  it.each([
    // Tasmania DHHS: at least 1 h after 5 mg/L; enHealth says 30 min, the longer is taken.
    [5, 60, false],
    [5.1, 480, true],
    // South Dakota DOH: 8 h at 50 mg/L.
    [50, 480, true],
    [51, 720, true],
    // COMAR 26.04.04.24: shock from 100 mg/L, a solution of at most 500.
    [100, 720, true],
    [500, 720, true],
  ])('%d mg/L stands %d min, flushed before drinking: %s', (dose, minutes, flush) => {
    expect(chlorineDose(100, 4, dose)).toMatchObject({ waitMinutes: minutes, thenFlush: flush });
  });

  it.each([
    [100, 4, 500.1, 'mg-per-litre', /more than 500 mg\/L/],
    [0, 4, 5, 'litres', /above zero/],
    [100, -1, 5, 'percent', /above zero/],
    [100, 101, 5, 'percent', /at most 100/],
    [100, 4, Number.NaN, 'mg-per-litre', /above zero/],
    [Number.POSITIVE_INFINITY, 4, 5, 'litres', /above zero/],
  ])('refuses %d L, %d %%, %d mg/L at %s', (litres, percent, dose, where, message) => {
    expect(() => chlorineDose(litres, percent, dose)).toThrow(
      expect.objectContaining({ where, message: expect.stringMatching(message) }),
    );
  });
});
