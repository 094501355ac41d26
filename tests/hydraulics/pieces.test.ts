import { describe, expect, it } from 'vitest';
import { frictionLoad, pipeLossPa, pipeOf } from '../../shared/hydraulics/pipe.ts';
import { flowAtHeadM3s, headCurveOf, headM, wornHeadM } from '../../shared/hydraulics/pump.ts';
import { headKept } from '../../shared/hydraulics/suction.ts';
import { waterAt } from '../../shared/hydraulics/water.ts';

const points = (...pairs: [number, number][]) =>
  headCurveOf(pairs.map(([flowM3s, head]) => ({ flowM3s, headM: head })));

describe('head curves', () => {
  it.each([
    ['two points', points([0, 40], [10, 30])],
    ['two points, none at rest', points([5, 38], [10, 30])],
    ['three points', points([0, 45], [33, 34], [60, 12])],
    ['three points, none at rest', points([5, 45], [33, 34], [60, 12])],
    ['five points', points([0, 45], [10, 44], [20, 40], [30, 30], [40, 10])],
    ['a flat beginning', points([0, 45], [33, 45], [60, 12])],
  ])('%s: the curve falls from end to end, and its inverse gives the flow back', (_, curve) => {
    let before = Number.POSITIVE_INFINITY;
    for (let flow = 0; flow <= 100; flow += 0.5) {
      const head = headM(curve, flow);
      expect(head).toBeLessThanOrEqual(before);
      expect(head).toBeGreaterThanOrEqual(0);
      before = head;
      if (head > 0 && head < headM(curve, 0)) {
        expect(headM(curve, flowAtHeadM3s(curve, head))).toBeCloseTo(head, 9);
      }
    }
  });

  it.each([
    [0, 45],
    [33, 34],
    [60, 12],
  ])('three points from zero flow lie on their curve: %d, %d', (flow, head) => {
    expect(headM(points([0, 45], [33, 34], [60, 12]), flow)).toBeCloseTo(head, 9);
  });

  it('many points are joined by straight lines, the last going on to zero head', () => {
    const curve = points([0, 40], [10, 36], [20, 28], [30, 16]);
    expect(headM(curve, 15)).toBeCloseTo(32, 12);
    expect(headM(curve, 35)).toBeCloseTo(10, 12);
    expect(headM(curve, 60)).toBe(0);
  });

  it('wear lowers the head, inner leakage the flow', () => {
    const curve = points([0, 40], [20, 28], [30, 16]);
    expect(wornHeadM(curve, 0, 0.8, 1)).toBeCloseTo(32, 12);
    expect(wornHeadM(curve, 10, 1, 0.5)).toBeCloseTo(28, 12);
  });
});

describe('friction between laminar and turbulent', () => {
  it.each([0, 1e-4, 1e-2, 0.05])(
    'rises without step or kink through the transition, ε/D %d',
    (rough) => {
      const pipe = pipeOf(1, 1, rough, 0);
      const slope = (re: number) =>
        (frictionLoad(pipe, re + 0.01) - frictionLoad(pipe, re - 0.01)) / 0.02;
      for (const edge of [2000, 4000]) {
        expect(frictionLoad(pipe, edge + 1e-9) / frictionLoad(pipe, edge - 1e-9)).toBeCloseTo(1, 9);
        expect(slope(edge + 0.02) / slope(edge - 0.02)).toBeCloseTo(1, 3);
      }
      for (let re = 1990; re < 4010; re += 5) expect(slope(re)).toBeGreaterThan(0);
    },
  );

  it('at rest nothing is lost', () => {
    expect(pipeLossPa(pipeOf(10, 0.02, 0, 5), 0, waterAt(20))).toBe(0);
  });
});

describe('the collapse of the head', () => {
  it('keeps 97 % where available is what is required (ISO 9906), all of it two metres above, nothing two below', () => {
    expect(headKept(0)).toBeCloseTo(0.97, 12);
    expect(headKept(2)).toBeGreaterThan(0.9999);
    expect(headKept(-2)).toBeLessThan(0.01);
    expect(headKept(-1e9)).toBe(0);
  });
});
