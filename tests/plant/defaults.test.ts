import { describe, expect, it } from 'vitest';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { type Part, parsePlant } from '../../shared/plant/schema.ts';

const resolve = (...line: Part[]) =>
  resolvePlant(parsePlant({ name: 'bare', line: [...line, { id: 'house', kind: 'house' }] }));
const assumedOf = (part: Part, ...others: Part[]) =>
  Object.fromEntries(
    resolve(part, ...others)
      .assumed.filter((one) => one.part === part.id)
      .map((one) => [one.field, one.value]),
  );

/** The contract's table: what a part that says nothing is taken as. */
const bare: [Part, Record<string, unknown>][] = [
  [
    { id: 't', kind: 'tank' },
    { levelM: 1.0, outletHeightM: 0.1 },
  ],
  [
    { id: 's', kind: 'suction' },
    {
      heightM: 0.5,
      lengthM: 3,
      boreMm: 32,
      roughnessMm: 0.02,
      fittingsK: 1.5,
      strainer: false,
      footValve: false,
    },
  ],
  [
    { id: 's', kind: 'suction', strainer: true, footValve: true },
    { heightM: 0.5, lengthM: 3, boreMm: 32, roughnessMm: 0.02, fittingsK: 10.5 },
  ],
  [
    { id: 'p', kind: 'pump' },
    {
      heightM: 0.3,
      submersible: false,
      curve: [
        { flowLpm: 0, headM: 45 },
        { flowLpm: 33, headM: 34 },
        { flowLpm: 60, headM: 12 },
      ],
      npshRequired: null,
      'control.kind': 'flow-controller',
      'control.startBar': 1.5,
      'control.minFlowLpm': 1.5,
    },
  ],
  [
    { id: 'f', kind: 'filter', medium: 'sediment' },
    { heightM: 0.5, 'clean.flowLpm': 20, 'clean.dropBar': 0.1, 'clean.linearShare': 0.7 },
  ],
  [
    { id: 'f', kind: 'filter', medium: 'carbon' },
    { heightM: 0.5, 'clean.flowLpm': 20, 'clean.dropBar': 0.25, 'clean.linearShare': 0.7 },
  ],
  [
    { id: 'f', kind: 'filter', medium: 'membrane' },
    { heightM: 0.5, 'clean.flowLpm': 20, 'clean.dropBar': 0.5, 'clean.linearShare': 0.7 },
  ],
  [
    { id: 'f', kind: 'filter', medium: 'softener' },
    { heightM: 0.5, 'clean.flowLpm': 20, 'clean.dropBar': 0.3, 'clean.linearShare': 0.5 },
  ],
  [
    { id: 'u', kind: 'uv' },
    { heightM: 0.5, 'clean.flowLpm': 20, 'clean.dropBar': 0.03, 'clean.linearShare': 0.05 },
  ],
  [
    { id: 'g', kind: 'gauge' },
    { heightM: 0.5, rangeBar: 10, classPercent: 2.5, divisionBar: 0.2 },
  ],
  [
    { id: 'g', kind: 'gauge', rangeBar: 6 },
    { heightM: 0.5, classPercent: 2.5, divisionBar: 0.12 },
  ],
  [
    { id: 'v', kind: 'vessel' },
    { heightM: 0.5, volumeL: 24, prechargeBar: 1.8 },
  ],
  [
    { id: 'r', kind: 'pressure-reducer' },
    { heightM: 0.5, setBar: 3.5 },
  ],
];

describe('what is left out takes the middle value and is listed', () => {
  it.each(bare)('%o', (part, expected) => {
    expect(assumedOf(part)).toEqual(expected);
  });

  it('a house, its pipe, its tap and what it needs', () => {
    const { assumed } = resolve();
    const house = assumed.filter((one) => one.part === 'house');
    expect(Object.fromEntries(house.map((one) => [one.field, one.value]))).toEqual({
      heightM: 3,
      'pipe.lengthM': 25,
      'pipe.boreMm': 20,
      'pipe.roughnessMm': 0.02,
      'pipe.fittingsK': 8,
      'tap.flowLpm': 12,
      'tap.atBar': 3,
      'need.open': 2,
      'need.flowLpm': 14.4,
    });
  });

  it('temperature and altitude belong to "plant"', () => {
    expect(resolve().assumed.slice(0, 2)).toEqual([
      { part: 'plant', field: 'waterTempC', value: 15 },
      { part: 'plant', field: 'altitudeM', value: 0 },
    ]);
  });

  it('a vessel speaks for a pressure switch, and its precharge lies 0.2 bar under cut-in', () => {
    const pump: Part = { id: 'p', kind: 'pump' };
    const vessel: Part = { id: 'v', kind: 'vessel' };
    expect(assumedOf(pump, vessel)).toMatchObject({
      'control.kind': 'pressure-switch',
      'control.cutInBar': 2,
      'control.cutOutBar': 3.5,
    });
    const switched: Part = {
      ...pump,
      control: { kind: 'pressure-switch', cutInBar: 2.6, cutOutBar: 4 },
    };
    expect(assumedOf(vessel, switched)).toMatchObject({ prechargeBar: 2.4 });
  });

  it.each([
    [{ cutOutBar: 4 }, 2, 4],
    [{ cutOutBar: 2.3 }, 1.8, 2.3],
    [{ cutOutBar: 0.8 }, 0.4, 0.8],
    [{ cutInBar: 2.6 }, 2.6, 3.5],
    [{ cutInBar: 3.4 }, 3.4, 3.9],
    [{ cutInBar: 3.6 }, 3.6, 4.1],
  ])(
    'of a switch with %o only the other half keeps its usual value, or half a bar from it',
    (given, cutInBar, cutOutBar) => {
      const { line } = resolve({
        id: 'p',
        kind: 'pump',
        control: { kind: 'pressure-switch', ...given },
      }).plant;
      const { control } = line[0] as { control: { cutInBar: number; cutOutBar: number } };
      expect(control.cutInBar).toBe(cutInBar);
      expect(control.cutOutBar).toBe(cutOutBar);
    },
  );

  it('given K holds for the whole suction, strainer and foot valve included', () => {
    const { plant } = resolve({ id: 's', kind: 'suction', fittingsK: 4, strainer: true });
    expect(plant.line[0]).toMatchObject({ fittingsK: 4, strainer: true, footValve: false });
  });

  it('a named tap that says nothing is an ordinary one at the house’s height', () => {
    const house: Part = { id: 'h', kind: 'house', heightM: 4, taps: [{ id: 'bath' }] };
    const { plant, assumed } = resolvePlant({ name: 'x', line: [house] });
    expect(plant.line[0]).toMatchObject({
      taps: [{ id: 'bath', heightM: 4, flowLpm: 12, atBar: 3 }],
    });
    expect(assumed.filter((one) => one.part === 'bath')).toHaveLength(3);
  });

  it('a drop left out at another flow follows the two-term law', () => {
    const { plant } = resolve({
      id: 'f',
      kind: 'filter',
      medium: 'sediment',
      clean: { flowLpm: 10 },
    });
    expect(plant.line[0]).toMatchObject({
      clean: { flowLpm: 10, dropBar: 0.1 * (0.7 * 0.5 + 0.3 * 0.25) },
    });
  });

  it('what a plant says is not listed', () => {
    const listed = resolvePlant(fernhollow).assumed.map((one) => `${one.part}.${one.field}`);
    expect(listed).not.toContain('tank.levelM');
    expect(listed).toContain('sed-2.clean.linearShare');
    expect(listed).not.toContain('sed-1.clean.linearShare');
  });
});
