import { type Line, lineOf } from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { type Part, parsePlant } from '../../shared/plant/schema.ts';

/** Parts of the lines that the tests solve: invented, of round figures. */
export const tank: Extract<Part, { kind: 'tank' }> = {
  id: 'tank',
  kind: 'tank',
  levelM: 1,
  outletHeightM: 0,
};
export const pump = (control: Extract<Part, { kind: 'pump' }>['control'], more = {}): Part => ({
  id: 'pump',
  kind: 'pump',
  heightM: 0,
  control,
  curve: [
    { flowLpm: 0, headM: 45 },
    { flowLpm: 33, headM: 34 },
    { flowLpm: 60, headM: 12 },
  ],
  ...more,
});
export const switched = pump({ kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 });
export const houseAt = (heightM: number, taps: object[] = []): Part =>
  ({ id: 'house', kind: 'house', heightM, ...(taps.length > 0 && { taps }) }) as Part;

/** The parts as the solver takes them, with water of 20 °C. */
export const line = (...parts: Part[]): Line =>
  lineOf(resolvePlant(parsePlant({ name: 'test', waterTempC: 20, line: [...parts] })).plant);

/** Pressure of a column of that water: 998.204 kg/m³ at 20 °C (IAPWS R6-95), standard gravity 9.80665 m/s². */
export const columnPa = (m: number): number => 998.204 * 9.80665 * m;
