import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonFault } from '../../src/cli/json-fault.ts';

describe('the place at which a text stops being JSON', () => {
  it.each([
    ['', 1, 1, 'a value must stand here; the text ends there'],
    ['{"a": 1,}', 1, 9, 'a field name in double quotes'],
    ['[1,\n 2,\n]', 3, 1, 'a value must stand here'],
    ['{"a" 1}', 1, 6, 'a colon'],
    ['{"a": 1 "b": 2}', 1, 9, 'a comma or }'],
    ['{\n  "a": hello\n}', 2, 8, 'a value must stand here'],
    ['{"a": "open\n"}', 1, 7, 'not closed'],
    ['{"a": 01}', 1, 8, 'a comma or }'],
    ['{"a": NaN}', 1, 7, 'a value'],
    ['{} {}', 1, 4, 'nothing more'],
    ['{"a": TRUE}', 1, 7, 'a value'],
  ])('%j is wrong at line %i, column %i', (text, line, column, message) => {
    expect(() => JSON.parse(text)).toThrow();
    const fault = jsonFault(text);
    expect(fault).toMatchObject({ line, column });
    expect(fault.message).toContain(message);
  });

  it('says so of a text nested too deep to follow, instead of failing', () => {
    expect(jsonFault('['.repeat(1e6)).message).toContain('nested too deep');
  });

  it('finds nothing wrong but the end in any JSON cut short', () => {
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 3 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (text, share) => {
          const short = text.slice(0, Math.floor(text.length * share));
          fc.pre(!isJson(short));
          const { line, message } = jsonFault(short);
          expect(line).toBe(1);
          expect(message).toMatch(/the text ends there|not closed|a comma or|a value must/);
        },
      ),
      { seed: 3, numRuns: 500 },
    );
  });
});

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
