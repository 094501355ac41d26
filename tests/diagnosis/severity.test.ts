import { describe, expect, it } from 'vitest';
import { severitiesOf } from '../../shared/diagnosis/severity.ts';
import type { Suspect } from '../../shared/diagnosis/suspects.ts';

describe('severities', () => {
  const of = (changes: object[], scale: 'log' | 'linear' = 'log', most = 20) =>
    severitiesOf({ table: { changes, scale } } as unknown as Suspect, () => most);

  it('of a cause that changes nothing are one that changes nothing', () => {
    expect(of([])).toEqual([{ weight: 1, spread: 0, change: {} }]);
  });

  it('share their chance out evenly, ways by their shares, and sum to one', () => {
    const all = of([
      { share: 3, a: [1, 16] },
      { share: 1, b: 0.5 },
    ]);
    expect(all.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(all.filter(({ change }) => 'b' in change)).toMatchObject([
      { weight: 0.25, change: { b: 0.5 }, spread: 0.1 },
    ]);
    // a range of 16 in steps of 2 needs four
    expect(all.filter(({ change }) => 'a' in change)).toHaveLength(4);
  });

  it('lie in the middle of equal steps: equal factors on a logarithmic scale, equal differences on a linear one', () => {
    const values = (severities: ReturnType<typeof of>) =>
      severities.map(({ change }) => (change as Record<string, number>).a ?? 0);
    const [low = 0, ...more] = values(of([{ share: 1, a: [1, 16] }]));
    expect(low).toBeCloseTo(Math.SQRT2, 12);
    expect(more.map((value) => value / low)).toEqual([2, 4, 8].map((v) => expect.closeTo(v, 9)));
    const linear = values(of([{ share: 1, a: [1, 16] }], 'linear'));
    expect(linear).toEqual([2.875, 6.625, 10.375, 14.125].map((v) => expect.closeTo(v, 9)));
    // a range through zero has no factor
    expect(values(of([{ share: 1, a: [-1, 1] }]))).toEqual([-0.75, -0.25, 0.25, 0.75]);
  });

  it('are no more than wanted, each spread the wider', () => {
    const few = of([{ share: 1, a: [1, 16] }], 'log', 2);
    expect(few).toHaveLength(2);
    expect(few[0]?.spread).toBeCloseTo(0.6, 12);
    expect(of([{ share: 1, a: [1, 16] }])[0]?.spread).toBeCloseTo(0.3, 12);
    expect(of([{ share: 1, a: [1, 1.2] }])).toHaveLength(3);
  });

  it('are shared out over the ways by their shares where few are wanted', () => {
    const changes = [
      { share: 3, a: [1, 16] },
      { share: 1, b: [1, 16] },
    ];
    const few = severitiesOf({ table: { changes, scale: 'log' } } as unknown as Suspect, (share) =>
      Math.max(1, Math.floor(4 * share)),
    );
    expect(few.map(({ change }) => Object.keys(change)[0])).toEqual(['a', 'a', 'a', 'b']);
    expect(few.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
  });
});
