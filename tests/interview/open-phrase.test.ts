import { describe, expect, it } from 'vitest';
import { plain } from '../../shared/interview/match.ts';
import { isOpen, openPhrasesOf, saidAmong } from '../../shared/interview/open-phrase.ts';

const synonyms = { smells: ['smel…', 'stinks'], drains: ['drain', 'septic tank'] };
const saysOf = (said: string, line: string, denied: readonly number[] = []) =>
  saidAmong(openPhrasesOf([said], synonyms, plain), plain(line).split(' '), (at) =>
    denied.includes(at),
  );

describe('an open phrase', () => {
  it.each(['smel…', 'wet/damp', '{smells}', 'bit_me', 'hot tap ?', 'shock -bill'])(
    '"%s" is one',
    (said) => expect(isOpen(said)).toBe(true),
  );
  it.each(['electric shock', 'half-open', 'is it wet? no'])('"%s" is none', (said) =>
    expect(isOpen(said)).toBe(false),
  );

  it.each([
    ['smel… burn…', 'burnt wires, what a smell'],
    ['wet/damp plug', 'the plug is a bit damp'],
    ['{smells} {drains}', 'it stinks like a septic tank'],
    ['{smells}/reeks of', 'it reeks of it'],
    ['bit_me tap', 'the tap bit me'],
    ['fría/calentísim…', 'sale CALENTISIMA'],
  ])('"%s" is said by "%s"', (said, line) => {
    expect(saysOf(said, line)).toHaveLength(1);
  });

  it.each([
    ['smel… burn…', 'a smell'],
    ['wet plug', 'wetter plugs'],
    ['{drains} full', 'the tank is full, the septic one'],
    ['bit_me tap', 'me bit the tap'],
    ['shock… -bill', 'what a shock, that bill'],
  ])('"%s" is not said by "%s"', (said, line) => {
    expect(saysOf(said, line)).toEqual([]);
  });

  it('needs a place of its own for every part', () => {
    expect(saysOf('burn…/hot burn…/wire', 'burnt')).toEqual([]);
    expect(saysOf('burn…/hot burn…/wire', 'hot and burnt')).toHaveLength(1);
  });

  it('is not said where a part stands only denied', () => {
    expect(saysOf('smoke', 'no smoke', [1])).toEqual([]);
    expect(saysOf('smoke', 'no smoke then smoke', [1])).toHaveLength(1);
  });

  it('ends with "?" where it is to be asked back', () => {
    expect(saysOf('hot tap ?', 'the hot tap')).toMatchObject([{ isSure: false }]);
    expect(saysOf('hot tap', 'the hot tap')).toMatchObject([{ isSure: true }]);
  });
});
