import { describe, expect, it } from 'vitest';
import { isOneSlip, spellingOf, withoutSlips } from '../../shared/interview/slips.ts';

describe('one slip', () => {
  it.each([
    ['smoke', 'smoke'],
    ['smok', 'smoke'],
    ['smooke', 'smoke'],
    ['somke', 'smoke'],
    ['smpke', 'smoke'],
    ['scalding', 'scolding'],
    ['rebento', 'revento'],
    ['x', 'xy'],
  ])('"%s" may be "%s", and the other way round', (a, b) => {
    expect([isOneSlip(a, b), isOneSlip(b, a)]).toEqual([true, true]);
  });

  it.each([
    ['smke', 'smokes'],
    ['mokse', 'smoke'],
    ['dosed', 'domed'],
    ['stock', 'shock'],
    ['quedaron', 'quemaron'],
    ['burst', 'burnt'],
  ])('"%s" is another word than "%s"', (a, b) => {
    expect([isOneSlip(a, b), isOneSlip(b, a)]).toEqual([false, false]);
  });
});

describe('slips in a line', () => {
  const spelling = spellingOf(
    ['shower', 'small'],
    ['smoke', 'electric', 'hot', 'small', 'shocked'],
  );

  it.each([
    ['thick somke', 'thick smoke'],
    ['an elctric one', 'an electric one'],
    ['elecricity', 'electric'],
  ])('"%s" is read as "%s"', (line, read) => {
    expect(withoutSlips(line.split(' '), spelling).join(' ')).toBe(read);
  });

  it.each(['hit', 'smell', 'shower', 'moke', 'xmoke'])('"%s" stays as it is', (word) => {
    const known = spellingOf(['shower', 'smell'], ['smoke', 'hot', 'small', 'showed']);
    expect(withoutSlips([word], known)).toEqual([word]);
  });
});
