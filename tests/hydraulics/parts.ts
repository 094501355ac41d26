import type { Part } from '../../shared/plant/schema.ts';

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
