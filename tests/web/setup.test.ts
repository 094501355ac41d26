import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fernhollow, readyMade } from '../../shared/plant/ready-made.ts';
import { type Part, parsePlant } from '../../shared/plant/schema.ts';
import { addable, moved, newPart } from '../../web/setup/new-part.ts';
import { fieldsOf, valueAt, withValue } from '../../web/setup/part-fields.ts';

const SEED = 20261125;
const part = (id: string): Part => {
  const found = fernhollow.line.find((one) => one.id === id);
  if (!found) throw new Error(`no part ${id}`);
  return found;
};

test.each([
  ['sed-1', 'clean.dropBar', 0.2],
  ['sed-1', 'fittedOn', '2026-11-25'],
  ['pump', 'control.cutInBar', 1.8],
  ['house', 'tap.flowLpm', 10],
])('%s › %s takes a value and gives it back', (id, path, value) => {
  expect(valueAt(withValue(part(id), path, value), path)).toBe(value);
});

test('an emptied value is left out, and so is a group with nothing left in it', () => {
  expect(
    withValue(
      { id: 'f', kind: 'filter', medium: 'carbon', clean: { dropBar: 0.3 } },
      'clean.dropBar',
      undefined,
    ),
  ).toEqual({
    id: 'f',
    kind: 'filter',
    medium: 'carbon',
  });
});

test('another way of control forgets the pressures of the former', () => {
  expect(withValue(part('pump'), 'control.kind', 'variable-speed')).toMatchObject({
    control: { kind: 'variable-speed' },
  });
  expect(withValue(part('pump'), 'control.kind', 'variable-speed')).not.toHaveProperty(
    'control.cutInBar',
  );
  expect(withValue(part('pump'), 'control.kind', undefined)).not.toHaveProperty('control');
});

test('points of the pump curve are a list again', () => {
  const changed = withValue(part('pump'), 'curve.1.headM', 30);
  expect(valueAt(changed, 'curve')).toEqual([
    { flowLpm: 0, headM: 46 },
    { flowLpm: 35, headM: 30 },
    { flowLpm: 60, headM: 14 },
  ]);
});

test('no field of any part takes its plant out of what a plant may be when it is emptied', () => {
  for (const one of fernhollow.line) {
    for (const { path } of fieldsOf(one)) {
      if (path === 'medium' || /^curve\./.test(path)) continue;
      const line = fernhollow.line.map((each) =>
        each === one ? withValue(one, path, undefined) : each,
      );
      expect(() => parsePlant({ ...fernhollow, line }), `${one.id} ${path}`).not.toThrow();
    }
  }
});

describe.each(readyMade)('the ready-made plant $id', ({ plant }) => {
  test.each(addable.filter((what) => !['tank', 'suction', 'pump'].includes(what)))(
    'takes one more %s',
    (what) => {
      const line = [...plant.line.slice(0, -1), newPart(what, plant), ...plant.line.slice(-1)];
      const ids = line.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      // a bypass goes round filters; without one there is nothing to go round
      if (what === 'bypass' && !plant.line.some(({ kind }) => kind === 'filter')) return;
      expect(() => parsePlant({ ...plant, line })).not.toThrow();
    },
  );
});

test('moving a part never loses one and leaves the house last', () => {
  const last = fernhollow.line.length - 2;
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: last }),
      fc.integer({ min: -3, max: last + 3 }),
      (from, to) => {
        const line = moved(fernhollow.line, from, to);
        expect(line.at(-1)?.id).toBe('house');
        expect(line.map(({ id }) => id).toSorted()).toEqual(
          fernhollow.line.map(({ id }) => id).toSorted(),
        );
      },
    ),
    { seed: SEED },
  );
});
