import type { Part } from './parts.ts';
import type { Plant } from './schema.ts';

/**
 * Plants to start from: a householder picks the one that looks most like theirs, names it and corrects it later. They
 * leave the values out, so that everything not known stays open. The words for them stand in the rule set, by id.
 */
export interface ReadyMade {
  readonly id: string;
  readonly plant: Plant;
}

const tank: Part = { id: 'tank', kind: 'tank' };
const suction: Part = { id: 'suction', kind: 'suction' };
const house: Part = { id: 'house', kind: 'house' };
const vessel: Part = { id: 'vessel', kind: 'vessel' };
const valve: Part = { id: 'valve', kind: 'valve' };
const uv: Part = { id: 'uv', kind: 'uv' };
const pressureSwitch: Part = { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } };
const controller: Part = { id: 'pump', kind: 'pump', control: { kind: 'flow-controller' } };
const variableSpeed: Part = { id: 'pump', kind: 'pump', control: { kind: 'variable-speed' } };
const gauge = (id: string): Part => ({ id, kind: 'gauge' });
const sediment = (id: string): Part => ({ id, kind: 'filter', medium: 'sediment' });
const carbon = (id: string): Part => ({ id, kind: 'filter', medium: 'carbon' });

const plant = (name: string, ...between: Part[]): Plant => ({ name, line: [...between, house] });

export const readyMade: readonly ReadyMade[] = [
  {
    id: 'tank-and-controller',
    plant: plant('tank-and-controller', tank, suction, controller),
  },
  {
    id: 'switch-and-vessel',
    plant: plant('switch-and-vessel', tank, suction, pressureSwitch, vessel, valve),
  },
  {
    id: 'one-stage',
    plant: plant(
      'one-stage',
      ...[tank, suction, pressureSwitch, vessel, valve],
      ...[gauge('G1'), sediment('sediment'), gauge('G2')],
    ),
  },
  {
    id: 'two-stages',
    plant: plant(
      'two-stages',
      ...[tank, suction, pressureSwitch, vessel, valve],
      ...[gauge('G1'), sediment('sediment'), gauge('G2'), carbon('carbon'), gauge('G3')],
    ),
  },
  {
    id: 'three-stages-uv-last',
    plant: plant(
      'three-stages-uv-last',
      ...[tank, suction, pressureSwitch, vessel, valve, gauge('G1')],
      ...[sediment('sediment-1'), sediment('sediment-2'), gauge('G2')],
      ...[carbon('carbon'), gauge('G3'), uv],
    ),
  },
  {
    id: 'uv-before-carbon',
    plant: plant(
      'uv-before-carbon',
      ...[tank, suction, pressureSwitch, vessel, valve, gauge('G1')],
      ...[sediment('sediment-1'), sediment('sediment-2'), gauge('G2')],
      ...[uv, carbon('carbon'), gauge('G3')],
    ),
  },
  {
    id: 'controller-two-stages-uv',
    plant: plant(
      'controller-two-stages-uv',
      ...[tank, suction, controller, valve],
      ...[sediment('sediment'), carbon('carbon'), uv],
    ),
  },
  {
    id: 'mains-back-up',
    plant: plant(
      'mains-back-up',
      ...[tank, suction, controller],
      { id: 'mains', kind: 'mains', changeover: 'automatic' },
      ...[sediment('sediment'), gauge('G1')],
    ),
  },
  {
    id: 'gravity',
    plant: plant(
      'gravity',
      { id: 'tank', kind: 'tank', outletHeightM: 12 },
      ...[valve, sediment('sediment'), gauge('G1')],
    ),
  },
  {
    id: 'variable-speed',
    plant: plant(
      'variable-speed',
      ...[tank, suction, variableSpeed, { ...vessel, volumeL: 8 }],
      ...[gauge('G1'), sediment('sediment'), carbon('carbon'), gauge('G2'), uv],
    ),
  },
];

/** The plant of the demo, the examples and the tests: an invented guesthouse on rainwater. */
export const fernhollow: Plant = {
  name: 'Fernhollow guesthouse',
  altitudeM: 300,
  waterTempC: 17,
  line: [
    { id: 'tank', kind: 'tank', volumeL: 10000, levelM: 1.4, outletHeightM: 0.1 },
    {
      ...{ id: 'suction', kind: 'suction', lengthM: 4, boreMm: 32, roughnessMm: 0.05 },
      ...{ fittingsK: 4, strainer: true, footValve: false },
    },
    {
      ...{ id: 'pump', kind: 'pump', heightM: 0.3, submersible: false, checkValve: true },
      curve: [
        { flowLpm: 0, headM: 46 },
        { flowLpm: 35, headM: 34 },
        { flowLpm: 60, headM: 14 },
      ],
      npshRequired: [{ flowLpm: 35, headM: 3.5 }],
      control: { kind: 'pressure-switch', cutInBar: 2.0, cutOutBar: 3.5 },
    },
    { id: 'vessel', kind: 'vessel', volumeL: 24, prechargeBar: 1.8 },
    { id: 'v1', kind: 'valve', open: true },
    {
      ...{ id: 'G1', kind: 'gauge', rangeBar: 10, classPercent: 2.5, divisionBar: 0.2 },
      heightM: 0.5,
    },
    {
      ...{ id: 'sed-1', kind: 'filter', medium: 'sediment', ratingMicron: 20, bleed: true },
      clean: { flowLpm: 20, dropBar: 0.1, linearShare: 0.7 },
      ...{ fittedOn: '2026-03-01', lifeMonths: 6 },
    },
    {
      ...{ id: 'sed-2', kind: 'filter', medium: 'sediment', ratingMicron: 5, bleed: true },
      clean: { flowLpm: 20, dropBar: 0.15 },
      ...{ fittedOn: '2026-03-01', lifeMonths: 6 },
    },
    { id: 'G2', kind: 'gauge', rangeBar: 10, classPercent: 2.5 },
    {
      ...{ id: 'carbon-1', kind: 'filter', medium: 'carbon', ratingMicron: 10 },
      clean: { flowLpm: 20, dropBar: 0.25 },
      ...{ fittedOn: '2026-03-01', lifeMonths: 12 },
    },
    { id: 'G3', kind: 'gauge', rangeBar: 10, classPercent: 2.5 },
    {
      ...{ id: 'uv', kind: 'uv', ratedFlowLpm: 40, ratedDoseMjCm2: 40 },
      ...{ lampFittedOn: '2025-10-01', lampLifeH: 9000 },
      clean: { flowLpm: 20, dropBar: 0.03 },
    },
    { id: 'v2', kind: 'valve', open: true },
    { id: 'G4', kind: 'gauge', rangeBar: 10, classPercent: 2.5 },
    {
      ...{ id: 'house', kind: 'house', heightM: 3 },
      pipe: { lengthM: 25, boreMm: 20, roughnessMm: 0.02, fittingsK: 8 },
      tap: { flowLpm: 12, atBar: 3 },
      taps: [{ id: 'bath-up', heightM: 6, flowLpm: 18, atBar: 3 }],
      need: { open: 2, flowLpm: 14 },
    },
  ],
};
