import { describe, expect, it } from 'vitest';
import { fill, jobName, say, sayTaps, sayValue, sureness } from '../../shared/diagnosis/say.ts';
import { siUnits, type Units } from '../../shared/ruleset/figures.ts';
import type { Question } from '../../shared/ruleset/schema.ts';
import { words } from './made-words.ts';

describe('a phrase', () => {
  it('has its holes filled, every one; a hole or a phrase that is missing shows itself', () => {
    expect(fill('{a} and {a} or {b}', { a: 1, b: 'x' })).toBe('1 and 1 or x');
    expect(fill('{a} {c}', { a: 0 })).toBe('0 {c}');
    expect(say(words, 'worth-measuring', { what: 'it' })).toBe('measure it');
    expect(say(words, 'none')).toBe('nothing');
    expect(say(words, 'no such phrase')).toBe('no such phrase');
  });
});

it.each([
  [1, 'almost-certain'],
  [0.95, 'almost-certain'],
  [0.949, 'very-likely'],
  [0.85, 'very-likely'],
  [0.849, 'likely'],
  [0.65, 'likely'],
  [0.649, 'about-even'],
  [0.35, 'about-even'],
  [0.349, 'possible'],
  [0.1, 'possible'],
  [0.099, 'unlikely'],
  [0, 'unlikely'],
  [-1e-9, 'unlikely'],
])('a probability of %d is said as "%s"', (probability, key) => {
  // these words have no such phrases, so their keys show
  expect(sureness(words, probability)).toBe(key);
});

it.each([
  ['closed', 'shut'],
  ['part-open', 'part open'],
  [{ open: 1 }, 'one tap'],
  [{ open: 3 }, '3 taps'],
  [{ open: ['bath', 'sink'] }, 'at bath, sink'],
])('taps %j are "%s"', (taps, said) => {
  expect(sayTaps(words, taps as never)).toBe(said);
});

describe('an answer as it was given', () => {
  const psi: Units = { pressure: 'psi', volume: 'US gal' };
  const spanish: Units = { ...siUnits, language: 'es' };
  it.each<[string, string, unknown, string, Units?]>([
    ['a choice by its label', 'choice', 'egg', 'rotten eggs'],
    ['a choice without one by its id', 'choice', 'new', 'new'],
    ['not known', 'choice', 'unknown', 'not known'],
    ['a list', 'list', ['egg', 'new'], 'rotten eggs, new'],
    ['an empty list', 'list', [], 'nothing'],
    ['hours', 'hours', 8000.5, '8000.5 h'],
    ['a number of anything else', 'count', 2, '2'],
    ['a number in another language', 'count', 2.5, '2,5', spanish],
    [
      'dates',
      'dates',
      { carbon: '2026-01-01', uv: '2025-05-05' },
      'carbon 2026-01-01, uv 2025-05-05',
    ],
    ['a water test', 'water-test', { ph: 6.51234, eColi: 'present' }, 'pH: 6.5123, E. coli? yes'],
    ['a clean water test', 'water-test', { eColi: 'absent' }, 'E. coli? no'],
    ['a water test in another language', 'water-test', { ph: 6.5 }, 'pH: 6,5', spanish],
    ['a pressure', 'pressure', { bar: 3.25, gauge: 'G1' }, '3.25 bar, G1'],
    ['a pressure typed in psi', 'pressure', { psi: 58 }, '3.999 bar'],
    ['a pressure for who reads psi', 'pressure', { bar: 4 }, '58 psi', psi],
    ['a pressure not known', 'pressure', { bar: 'unknown' }, 'not known'],
    ['water at the valve', 'precharge', 'water-at-valve', 'water-at-valve'],
    [
      'readings by gauge',
      'readings',
      { taps: 'closed', bar: { G1: 3, G2: 'unknown' }, pump: 'on' },
      'shut, G1 3 bar, G2 not known, pump runs',
    ],
    ['a flow', 'flow', { litres: 10, seconds: 42, taps: { open: 2 } }, '10 L, 42 s, 2 taps'],
    ['a flow for who reads gallons', 'flow', { litres: 10, seconds: 42 }, '2.6 US gal, 42 s', psi],
    ['a flow as measured', 'readings', { flowLpm: 11.25 }, '11.3 L/min'],
    ['a cycle', 'cycle-times', { onS: 20, offS: 90, taps: 'open' }, '20 s, 90 s, one tap'],
    ['a cycle, pump at rest', 'cycle-times', { taps: 'closed', pump: 'off' }, 'shut, pump rests'],
    ['a pressure lost', 'pressure-loss', { lostBar: 0.5, minutes: 10 }, '0.5 bar, 10 min'],
    ['a level', 'tank-level', { m: 1.2 }, '1.2 m'],
    ['a field nobody named', 'choice', { apples: 3 }, '3 apples'],
    ['parts', 'housing', { removed: ['a', 'b'], result: 'egg' }, 'a b, rotten eggs'],
  ])('%s', (_, kind, value, said, units) => {
    expect(sayValue(words, 'smell', { kind } as Question, value, units)).toBe(said);
  });
});

describe('the name of a job', () => {
  const job = { lookFor: { householder: 'x', agent: 'x', technician: 'x' } };
  const jobs = {
    call: { ...job, name: 'Call them', technicianName: 'Search' },
    set: { ...job, name: 'Set it' },
  };
  it.each([
    ['call', 'householder', 'Call them'],
    ['call', 'agent', 'Call them'],
    ['call', 'technician', 'Search'],
    ['set', 'technician', 'Set it'],
    ['gone', 'agent', 'gone'],
  ] as const)('%s is to the %s: %s', (id, audience, name) => {
    expect(jobName({ ...words, jobs }, id, audience)).toBe(name);
  });
});
