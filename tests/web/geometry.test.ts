import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plant } from '../../shared/plant/schema.ts';
import { plantPicture } from '../../web/brain/plant-picture.ts';
import {
  bandBetween,
  directionFor,
  geometryOf,
  lineThrough,
  scaleOf,
} from '../../web/drawing/geometry.ts';

const SEED = 20261125;

/** A plant of any number of parts in any order, the house last. */
const anyPlant = fc
  .array(fc.constantFrom('gauge', 'valve', 'sediment', 'carbon', 'uv', 'check-valve', 'vessel'), {
    maxLength: 24,
  })
  .map((kinds): Plant => {
    const between = kinds.map((kind, i) =>
      kind === 'sediment' || kind === 'carbon'
        ? { id: `p${i}`, kind: 'filter', medium: kind }
        : { id: `p${i}`, kind },
    );
    return {
      name: 'any',
      line: [
        { id: 'tank', kind: 'tank' },
        { id: 'pump', kind: 'pump' },
        ...between,
        { id: 'house', kind: 'house' },
      ],
    } as Plant;
  });

describe.each(['across', 'up'] as const)('a line drawn %s', (direction) => {
  test('keeps every part and pressure inside the drawing, in the order of the water', () => {
    fc.assert(
      fc.property(anyPlant, fc.integer({ min: 320, max: 1400 }), (plant, width) => {
        const picture = plantPicture(plant);
        const drawing = geometryOf(picture, width, direction);
        const along = drawing.pipe.map(({ x, y }) => (direction === 'across' ? x : -y));
        expect(along).toEqual(along.toSorted((a, b) => a - b));
        for (const { x, y } of [...drawing.pipe, ...drawing.outlines]) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(drawing.height);
        }
        for (const bar of [0, picture.topBar]) {
          const point = drawing.at(picture.parts.length - 1, bar);
          expect(point.x).toBeGreaterThanOrEqual(0);
          expect(point.x).toBeLessThanOrEqual(width);
          expect(point.y).toBeLessThanOrEqual(drawing.height);
        }
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

test('on the narrowest phone each part keeps 56 pixels of height for a finger', () => {
  const picture = plantPicture({
    name: 'small',
    line: [
      { id: 'tank', kind: 'tank' },
      { id: 'pump', kind: 'pump' },
      { id: 'house', kind: 'house' },
    ],
  });
  for (const { height } of geometryOf(picture, 320, 'up').touch) expect(height).toBe(56);
});

test.each([
  [3, 320, 'across'],
  [15, 320, 'up'],
  [15, 700, 'up'],
  [15, 840, 'across'],
] as const)('%i parts in %i pixels are drawn %s', (parts, width, expected) => {
  expect(directionFor(parts, width)).toBe(expected);
});

test('a line goes through its points and a band comes back to its beginning', () => {
  const low = [
    { x: 0, y: 1 },
    { x: 2, y: 3 },
  ];
  expect(lineThrough(low)).toBe('M0.0,1.0L2.0,3.0');
  expect(
    bandBetween(low, [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
    ]),
  ).toBe('M0.0,1.0L2.0,3.0L2.0,0.0L0.0,0.0Z');
});

test('the scale stands at round pressures of the reader’s unit, few enough to be read', () => {
  expect(scaleOf(4, 'bar')).toEqual([0, 1, 2, 3, 4]);
  expect(scaleOf(8, 'bar')).toEqual([0, 2, 4, 6, 8]);
  expect(scaleOf(4, 'kPa').map((bar) => Math.round(bar * 100))).toEqual([0, 100, 200, 300, 400]);
  // 4 bar are 58 psi (NIST SP 811, appendix B.8)
  expect(scaleOf(4, 'psi').map((bar) => Math.round(bar * 14.5038))).toEqual([
    0, 10, 20, 30, 40, 50,
  ]);
});
