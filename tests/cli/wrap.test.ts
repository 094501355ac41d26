import { describe, expect, it } from 'vitest';
import { wrap } from '../../src/cli/show/wrap.ts';

const text =
  'Open one ordinary tap fully. Shut all else, and read the gauges at the pump, the nearest first.';

describe('text on a terminal', () => {
  it('is a page wide at the most, and no wider than the terminal', () => {
    const widest = (width?: number) =>
      Math.max(
        ...wrap(text, '  ', '  ', width)
          .split('\n')
          .map(({ length }) => length),
      );
    expect(widest()).toBeLessThanOrEqual(80);
    expect(widest(80)).toBeGreaterThan(60);
    expect(widest(40)).toBeLessThanOrEqual(40);
  });

  it('takes the width of the terminal it is on', () => {
    const { columns } = process.stdout;
    try {
      for (const [wide, most] of [
        [44, 44],
        [200, 80],
        // too narrow to hold a word: broken by the terminal, not into single letters
        [5, 30],
      ] as const) {
        process.stdout.columns = wide;
        const lines = wrap(text).split('\n');
        expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(most);
      }
    } finally {
      process.stdout.columns = columns;
    }
  });
});
