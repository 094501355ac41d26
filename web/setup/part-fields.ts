import type { Part } from '../../shared/plant/schema.ts';

/** One value of a part that can be filled in. An empty one stays unknown and is left out of the plant. */
export interface PartField {
  /** path in the part: "clean.dropBar" */
  readonly path: string;
  readonly kind: 'pressure' | 'volume' | 'flow' | 'number' | 'day' | 'yes-no' | 'choice';
  /** key of the unit's name behind a number */
  readonly unit?: string;
  readonly options?: readonly string[];
}

/** The key of the words for a field. */
export const labelKey = ({ path }: PartField): string =>
  `field-${path.replaceAll('.', '-').toLowerCase()}`;

const pressure = (path: string): PartField => ({ path, kind: 'pressure' });
const number = (path: string, unit?: string): PartField => ({
  path,
  kind: 'number',
  ...(unit && { unit }),
});
const yesNo = (path: string): PartField => ({ path, kind: 'yes-no' });
const day = (path: string): PartField => ({ path, kind: 'day' });
const flow = (path: string): PartField => ({ path, kind: 'flow' });
const volume = (path: string): PartField => ({ path, kind: 'volume' });

const controls: Readonly<Record<string, readonly PartField[]>> = {
  'pressure-switch': [pressure('control.cutInBar'), pressure('control.cutOutBar')],
  'flow-controller': [pressure('control.startBar'), flow('control.minFlowLpm')],
  'variable-speed': [pressure('control.setBar')],
};

/** The values worth asking for at each kind of part, those told by a label or a plate first. */
export function fieldsOf(part: Part): readonly PartField[] {
  switch (part.kind) {
    case 'tank':
      return [
        volume('volumeL'),
        number('levelM', 'metres'),
        yesNo('uphill'),
        number('outletHeightM', 'metres'),
      ];
    case 'suction':
      return [
        number('lengthM', 'metres'),
        number('boreMm', 'millimetres'),
        yesNo('strainer'),
        yesNo('footValve'),
      ];
    case 'pump':
      return [
        { path: 'control.kind', kind: 'choice', options: [...Object.keys(controls), 'none'] },
        ...(controls[part.control?.kind ?? ''] ?? []),
        ...[0, 1, 2].flatMap((i) => [
          flow(`curve.${i}.flowLpm`),
          number(`curve.${i}.headM`, 'metres'),
        ]),
        yesNo('checkValve'),
        yesNo('submersible'),
      ];
    case 'vessel':
      return [volume('volumeL'), pressure('prechargeBar')];
    case 'valve':
      return [yesNo('open')];
    case 'bypass':
      return [yesNo('open')];
    case 'pressure-reducer':
    case 'relief-valve':
      return [pressure('setBar')];
    case 'gauge':
      return [
        pressure('rangeBar'),
        pressure('divisionBar'),
        number('classPercent', 'percent'),
        number('heightM', 'metres'),
      ];
    case 'filter':
      return [
        { path: 'medium', kind: 'choice', options: ['sediment', 'carbon', 'membrane', 'softener'] },
        number('ratingMicron', 'micron'),
        day('fittedOn'),
        number('lifeMonths', 'months'),
        flow('clean.flowLpm'),
        pressure('clean.dropBar'),
        yesNo('bleed'),
      ];
    case 'uv':
      return [day('lampFittedOn'), number('lampLifeH', 'hours'), flow('ratedFlowLpm')];
    case 'house':
      return [
        number('heightM', 'metres'),
        flow('tap.flowLpm'),
        number('need.open', 'taps'),
        number('pipe.lengthM', 'metres'),
        number('pipe.boreMm', 'millimetres'),
      ];
    default:
      return [];
  }
}

/** The value at a path of a part. */
export function valueAt(part: Part, path: string): unknown {
  return path
    .split('.')
    .reduce<unknown>((here, step) => (here as Record<string, unknown> | undefined)?.[step], part);
}

/** The part with one value set, or left out when it is undefined; a group with nothing left in it goes too. */
export function withValue(part: Part, path: string, value: unknown): Part {
  const set = (target: unknown, [first, ...rest]: string[]): unknown => {
    const isList = Array.isArray(target);
    const copy: Record<string, unknown> = { ...((target ?? {}) as object) };
    if (first === undefined) return value;
    const inner = rest.length === 0 ? value : set(copy[first], rest);
    if (inner === undefined) delete copy[first];
    else copy[first] = inner;
    if (isList || /^\d+$/.test(first)) return listOf(copy);
    return Object.keys(copy).length === 0 ? undefined : copy;
  };
  const changed = set(part, path.split('.')) as Part;
  // another way of control has other pressures
  if (path === 'control.kind' && changed.kind === 'pump') {
    return value === undefined
      ? withoutControl(changed)
      : ({ ...changed, control: { kind: value } } as Part);
  }
  return changed;
}

function withoutControl(part: Extract<Part, { kind: 'pump' }>): Part {
  const { control: _, ...rest } = part;
  return rest;
}

function listOf(entries: Record<string, unknown>): unknown[] | undefined {
  const list = Object.keys(entries)
    .sort()
    .map((key) => entries[key])
    .filter((entry) => entry !== undefined);
  return list.length === 0 ? undefined : list;
}
