import { describe, expect, it } from 'vitest';
import { readFigure, readPressures } from '../../shared/interview/units.ts';
import {
  flowText,
  numberText,
  pressureText,
  type Units,
  volumeText,
} from '../../shared/ruleset/figures.ts';

const si: Units = { pressure: 'bar', volume: 'L' };
const us: Units = { pressure: 'psi', volume: 'US gal' };
const imperial: Units = { pressure: 'kPa', volume: 'imp gal' };

describe('typed figures', () => {
  // NIST SP 811 (2008), appendix B: 1 psi = 6894.757 Pa, 1 US gallon = 3.785412 L, 1 imperial gallon = 4.54609 L.
  it.each([
    ['3.4', 'pressure', si, 3.4],
    ['3,4', 'pressure', si, 3.4],
    ['3.4 bar', 'pressure', us, 3.4],
    ['58', 'pressure', us, 3.999],
    ['58 psi', 'pressure', si, 3.999],
    ['11.6psi', 'pressure', si, 0.7998],
    ['400 kPa', 'pressure', si, 4],
    ['400', 'pressure', imperial, 4],
    ['-0.3', 'pressure', si, -0.3],
    ['−0.3', 'pressure', si, -0.3],
    ['10', 'volume', si, 10],
    ['10 litres', 'volume', us, 10],
    ['2', 'volume', us, 7.5708],
    ['2 gal', 'volume', us, 7.5708],
    ['2 gallons', 'volume', imperial, 9.0922],
    ['2 US gal', 'volume', si, 7.5708],
    ['2 imperial gallons', 'volume', us, 9.0922],
    ['10 litros', 'volume', us, 10],
    ['2 galones', 'volume', us, 7.5708],
    ['2 galones ingleses', 'volume', us, 9.0922],
    ['20 segundos', 'seconds', si, 20],
    ['2 minutos', 'seconds', si, 120],
    ['2 días', 'hours', si, 48],
    ['2 metros', 'metres', si, 2],
    ['40 libras', 'pressure', si, 2.7579],
    ['40', 'seconds', si, 40],
    ['1:20', 'seconds', si, 80],
    ['2 min', 'seconds', si, 120],
    ['1:30', 'minutes', si, 1.5],
    ['90 s', 'minutes', si, 1.5],
    ['120 cm', 'metres', si, 1.2],
    ['4 ft', 'metres', si, 1.2192],
    ['7000', 'hours', si, 7000],
    ['0,125', 'number', si, 0.125],
    ['2.625', 'pressure', si, 2.625],
    ['1.125', 'metres', si, 1.125],
    ['6.5', 'number', si, 6.5],
  ] as const)('"%s" as %s is %j → %f', (text, quantity, units, value) => {
    expect(readFigure(text, quantity, units)?.value).toBeCloseTo(value, 4);
  });

  it.each([
    ['', 'pressure'],
    ['three', 'pressure'],
    ['3.4 litres', 'pressure'],
    ['3 bar', 'volume'],
    ['2 gal', 'volume'],
    ['1:75', 'seconds'],
    ['1e3', 'pressure'],
    ['NaN', 'number'],
    ['6.5 mg', 'number'],
    // a comma that may part thousands or decimals
    ['9,000', 'hours'],
    ['1.200', 'volume'],
    ['12,500 litres', 'volume'],
  ] as const)('"%s" is no %s', (text, quantity) => {
    expect(readFigure(text, quantity, si)).toBeNull();
  });

  it('takes the unit typed behind the figure for the rest of the session', () => {
    expect(readFigure('58 psi', 'pressure', si)?.units).toEqual({ pressure: 'psi' });
    expect(readFigure('58', 'pressure', si)?.units).toEqual({});
  });
});

describe('figures shown', () => {
  it.each([
    [pressureText(4, { ...si, pressure: 'psi' }), '58 psi'],
    [pressureText(0.8, { ...si, pressure: 'psi' }), '12 psi'],
    [pressureText(3.999, si), '4.0 bar'],
    [pressureText(3.999, { ...si, language: 'es' }), '4,0 bar'],
    [pressureText(2.5, { ...si, pressure: 'kPa' }), '250 kPa'],
    [pressureText(-0.01, si), '0.0 bar'],
    [pressureText(1.005, si, { bar: 2, psi: 1, kPa: 0 }), '1.00 bar'],
    [flowText(7.57, { ...si, volume: 'US gal' }), '2.0 US gpm'],
    [flowText(7.57, { ...si, volume: 'US gal', language: 'es' }), '2,0 US gpm'],
    [flowText(20, si), '20 L/min'],
    [flowText(9.09, { ...si, volume: 'imp gal' }), '2.0 imp gpm'],
    [volumeText(3.7854, { ...si, volume: 'US gal' }), '1.00 US gal'],
    [volumeText(0.05, si), '0.0500 L'],
    [volumeText(12, si), '12.0 L'],
    [volumeText(1250, si), '1250 L'],
    [numberText(-0.001, 2, 'es'), '0,00'],
    [numberText(3.5, 4, undefined, true), '3.5'],
  ])('%s', (shown, expected) => {
    expect(shown).toBe(expected);
  });
});

describe('gauges told in one line', () => {
  const bar = { pressure: 'bar', volume: 'L', language: 'en' } as const;

  it.each([
    ['4.2 4.1 0.4', [4.2, 4.1, 0.4]],
    ['4,2 4,1 0,4', [4.2, 4.1, 0.4]],
    ['4.2, 4.1, 0.4', [4.2, 4.1, 0.4]],
    ['4,2; 4,1;0,4', [4.2, 4.1, 0.4]],
  ])('"%s" is %j', (line, read) => {
    expect(readPressures(line, 3, bar)).toEqual(read);
  });

  it.each(['4.2 4.1', '4.2 4.1 0.4 0.3', '4.2 4.1 full', '4,2,4,1,0,4', ''])(
    '"%s" is not three gauges',
    (line) => {
      expect(readPressures(line, 3, bar)).toBeNull();
    },
  );

  it('one gauge is a figure like any other', () => {
    expect(readPressures('4.2', 1, bar)).toBeNull();
  });
});
