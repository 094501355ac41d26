import type { Part, Plant } from '../../shared/plant/schema.ts';

/** Invented plants that have a place for every cause between them: what a rule set is tried on as a whole. */
const withControl = (control: NonNullable<Extract<Part, { kind: 'pump' }>['control']>): Plant => ({
  name: `every part, ${control.kind}`,
  line: [
    { id: 'tank', kind: 'tank' },
    { id: 'suction', kind: 'suction', strainer: true, footValve: true },
    { id: 'pump', kind: 'pump', checkValve: true, control },
    { id: 'vessel', kind: 'vessel' },
    { id: 'valve', kind: 'valve' },
    { id: 'G1', kind: 'gauge' },
    { id: 'sediment', kind: 'filter', medium: 'sediment' },
    { id: 'G2', kind: 'gauge' },
    { id: 'carbon', kind: 'filter', medium: 'carbon' },
    { id: 'G3', kind: 'gauge' },
    { id: 'membrane', kind: 'filter', medium: 'membrane' },
    { id: 'G4', kind: 'gauge' },
    { id: 'softener', kind: 'filter', medium: 'softener' },
    { id: 'G5', kind: 'gauge' },
    { id: 'bypass', kind: 'bypass', around: ['sediment', 'carbon'], open: false },
    { id: 'reducer', kind: 'pressure-reducer', setBar: 3 },
    { id: 'uv', kind: 'uv' },
    { id: 'G6', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
});

export const everyPart: readonly Plant[] = [
  withControl({ kind: 'pressure-switch' }),
  withControl({ kind: 'flow-controller' }),
];
