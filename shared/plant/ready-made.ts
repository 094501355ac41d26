import type { Part } from './parts.ts';
import type { Plant } from './schema.ts';

export { fernhollow } from './fernhollow.ts';

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
const valve: Part = { id: 'v1', kind: 'valve' };
const uv: Part = { id: 'uv', kind: 'uv' };
const pressureSwitch: Part = { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } };
const controller: Part = { id: 'pump', kind: 'pump', control: { kind: 'flow-controller' } };
const variableSpeed: Part = { id: 'pump', kind: 'pump', control: { kind: 'variable-speed' } };
const gauge = (id: string): Part => ({ id, kind: 'gauge' });
const sediment = (id: string): Part => ({ id, kind: 'filter', medium: 'sediment' });
const carbon = (id: string): Part => ({ id, kind: 'filter', medium: 'carbon' });

const plant = (name: string, ...between: Part[]): Plant => ({ name, line: [...between, house] });

/** What stands for a plant until somebody describes it: two filter stages with gauges, all its values open. */
export const untilDescribed: Plant = plant(
  'two-stages',
  ...[tank, suction, pressureSwitch, vessel, valve],
  ...[gauge('G1'), sediment('sediment'), gauge('G2'), carbon('carbon'), gauge('G3')],
);

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
    plant: untilDescribed,
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
      { ...tank, uphill: true },
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
