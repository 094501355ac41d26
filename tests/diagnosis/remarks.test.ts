import { describe, expect, it } from 'vitest';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import { type NextAsk, NOTHING_TO_ASK } from '../../shared/diagnosis/next.ts';
import { remarksFor, warningsFor } from '../../shared/diagnosis/remarks.ts';
import type { Worth } from '../../shared/diagnosis/worth.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { gauge } from './made-line.ts';
import { words } from './made-words.ts';

const judgementOf = (
  probabilities: Record<string, number>,
  without: Record<string, number> = {},
  values: Record<string, unknown> = {},
  overdue: string[] = [],
) =>
  ({
    facts: { values: new Map(Object.entries(values)) },
    rules: {
      causes: { pump: {}, filter: {}, lamp: {} },
      questions: { smell: { kind: 'choice' }, gauges: { kind: 'readings' } },
    },
    suspects: { overdue: new Map(overdue.map((id) => [id, {}])) },
    probabilities: new Map(Object.entries(probabilities)),
    without: new Map(
      Object.entries(without).map(([question, p]) => [question, new Map([['not-listed', p]])]),
    ),
  }) as unknown as Judgement;
const worth = (question: string, leadingFallsTo = 1, taps: Worth['ask']['taps'] = null): Worth => ({
  ask: { question, taps },
  ...{ savingMinutes: 0, effortMinutes: 0, information: 0.2, leadingFallsTo, apart: 0.2 },
});
const remarks = (judgement: Judgement, next: Partial<NextAsk> = {}) =>
  remarksFor(judgement, { ...NOTHING_TO_ASK, ...next }, words, siUnits).map(({ text }) => text);

describe('an answer that fits nothing', () => {
  it('is named where something not listed is at least one in five, and it made that likelier by e', () => {
    const odd = (now: number, before: number) =>
      remarks(judgementOf({ 'not-listed': now }, { smell: before }, { smell: 'egg' }));
    expect(odd(0.2, 0.2 / 2.72)).toEqual(['odd: Smell: rotten eggs']);
    expect(odd(0.2, 0.2 / 2.71)).toEqual([]);
    expect(odd(0.199, 0.001)).toEqual([]);
    expect(odd(0.2, 0)).toEqual(['odd: Smell: rotten eggs']);
  });

  it('is the one that made it likeliest; readings are named without figures', () => {
    const both = (smell: number, gauges: number) =>
      remarks(judgementOf({ 'not-listed': 0.5 }, { smell, gauges }, { smell: 'egg' }));
    expect(both(0.1, 0.01)).toEqual(['odd: Gauges']);
    expect(both(0.01, 0.1)).toEqual(['odd: Smell: rotten eggs']);
  });

  it('is none where nothing was answered, or what raised it is no question', () => {
    expect(remarks(judgementOf({ 'not-listed': 0.9 }))).toEqual([]);
    expect(remarks(judgementOf({ 'not-listed': 0.9 }, { gone: 0.01 }))).toEqual([]);
    expect(remarks(judgementOf({ pump: 0.9 }, { smell: 0 }))).toEqual([]);
  });
});

describe('two causes that nothing left to ask tells apart', () => {
  const couldSettle = worth('gauges', 1, { open: 1 });
  const couldPart = couldSettle;
  const told = (
    probabilities: Record<string, number>,
    next: Partial<NextAsk> = { couldSettle, couldPart },
  ) => remarks(judgementOf(probabilities), next);
  const apart = 'the pump or the filter: Gauges (one tap)';
  const measure = 'measure Gauges (one tap)';

  it.each<[string, Record<string, number>, string]>([
    ['are close', { filter: 0.3, pump: 0.4 }, apart],
    ['are just close: one in five', { pump: 0.39, filter: 0.2 }, apart],
    ['the second under one in five', { pump: 0.3, filter: 0.19 }, measure],
    ['the first twice as likely', { pump: 0.5, filter: 0.25 }, measure],
    ['are both there: 1.2 together', { pump: 0.6, filter: 0.6 }, measure],
    ['are nearly both there', { pump: 0.6, filter: 0.59 }, apart],
    ['is only one', { pump: 0.4 }, measure],
    ['is one, and something not listed', { pump: 0.4, 'not-listed': 0.35 }, measure],
    ['are three', { lamp: 0.1, pump: 0.4, filter: 0.3 }, apart],
  ])('%s', (_, probabilities, expected) => {
    expect(told(probabilities)).toEqual([expected]);
  });

  it('are not spoken of where nothing could settle it, as while there is something to ask', () => {
    expect(told({ pump: 0.4, filter: 0.3 }, {})).toEqual([]);
    expect(told({ pump: 0.4 }, {})).toEqual([]);
  });

  it('are not said to be told apart by what tells of others', () => {
    expect(told({ pump: 0.4, filter: 0.3 }, { couldSettle })).toEqual([measure]);
    const smells = { couldSettle, couldPart: worth('smell') };
    expect(told({ pump: 0.4, filter: 0.3 }, smells)).toEqual(['the pump or the filter: Smell']);
  });

  it('without words go by their ids', () => {
    expect(told({ lamp: 0.4, pump: 0.3 }, { couldPart: worth('new') })).toEqual([
      'lamp or the pump: new',
    ]);
  });
});

describe('what would change the picture', () => {
  const told = (now: number, fallsTo: number, more: Record<string, number> = {}) =>
    remarks(judgementOf({ pump: now, ...more }), { couldChange: worth('smell', fallsTo) });

  it('is an answer that would halve the leading cause, where one leads', () => {
    expect(told(0.35, 0.175)).toEqual(['Smell: the pump to 18']);
    expect(told(0.35, 0.176)).toEqual([]);
    expect(told(0.349, 0)).toEqual([]);
    expect(told(0.8, 0.104)).toEqual(['Smell: the pump to 10']);
    expect(remarks(judgementOf({ pump: 0.9 }))).toEqual([]);
  });

  it('is about what is sought: not about what is merely overdue or not listed', () => {
    expect(told(0.5, 0.1, { 'not-listed': 0.6 })).toContain('Smell: the pump to 10');
    const overdue = judgementOf({ lamp: 0.9, pump: 0.4 }, {}, {}, ['lamp']);
    expect(remarks(overdue, { couldChange: worth('smell', 0.1) })).toEqual([
      'Smell: the pump to 10',
    ]);
  });

  it('stands after the rest', () => {
    const judgement = judgementOf(
      { pump: 0.4, 'not-listed': 0.3 },
      { smell: 0.01 },
      { smell: 'egg' },
    );
    const next = { couldChange: worth('smell', 0.1), couldSettle: worth('gauges') };
    expect(remarks(judgement, next)).toEqual([
      'odd: Smell: rotten eggs',
      'measure Gauges',
      'Smell: the pump to 10',
    ]);
  });
});

describe('what is odd about readings', () => {
  const threeGauges = [gauge(1), gauge(3, { rangeBar: 6 }), gauge(5)];
  type Read = { taps: unknown; bar: Record<string, number | 'unknown'> };
  const warned = (
    readings: Read[],
    offsets: Read | null = null,
    units = siUnits,
    gauges = threeGauges,
  ) =>
    warningsFor(
      {
        facts: {
          plant: { line: [{ id: 'house', kind: 'house' }] },
          readings: new Map(readings.map((read, i) => [String(i), read])),
          offsets,
        },
        model: { gauges, curves: { datumM: 0 } },
      } as unknown as Judgement,
      words,
      units,
    ).map(({ text }) => text);
  const closed = (G1: number, G3: number | 'unknown', G5: number | 'unknown'): Read => ({
    taps: 'closed',
    bar: { G1, G3, G5 },
  });
  const open = (G1: number | 'unknown', G3: number | 'unknown', G5: number | 'unknown'): Read => ({
    taps: { open: 1 },
    bar: { G1, G3, G5 },
  });

  it('a reading past the end of its dial, with taps shut or open, in the reader’s unit', () => {
    expect(warned([open(9, 6, 5)])).toEqual([]);
    expect(warned([open(9, 6.05, 5)])).toEqual(['G3 6.05 bar past 6 bar']);
    expect(warned([open(9, 6.05, 5)], null, { ...siUnits, pressure: 'psi' })).toEqual([
      // 14.5038 psi a bar
      'G3 87.7 psi past 87 psi',
    ]);
    expect(warned([closed(10.1, 'unknown', 'unknown')])).toEqual(['G1 10.1 bar past 10 bar']);
  });

  it('a figure off a dial in bar that was taken for another unit', () => {
    const inKpa = { ...siUnits, pressure: 'kPa' } as const;
    expect(warned([closed(0.036, 0.036, 'unknown')], null, inKpa)).toEqual([
      'G1 4 kPa: bar?',
      'G3 4 kPa: bar?',
    ]);
    expect(warned([closed(0.036, 'unknown', 'unknown')])).toEqual([]);
    expect(warned([closed(0, 'unknown', 'unknown')], null, inKpa)).toEqual([]);
    expect(warned([closed(0.2, 'unknown', 'unknown')], null, inKpa)).toEqual([]);
  });

  it('at rest one more than twice its class from the middle of all; the middle of the others told', () => {
    // twice 0.16 bar
    expect(warned([closed(3, 3.1, 3.41)])).toEqual([]);
    expect(warned([closed(3, 3.1, 3.43)])).toEqual(['G5 3.43 bar others 3.05']);
    expect(warned([closed(2.7, 3.1, 3.1)])).toEqual(['G1 2.7 bar others 3.1']);
    // of two either may be the wrong one, once they are further apart than the class of both
    expect(warned([closed(3, 3.3, 'unknown')])).toEqual([]);
    expect(warned([closed(3, 3.4, 'unknown')])).toEqual([
      'G1 3 bar others 3.4',
      'G3 3.4 bar others 3',
    ]);
    expect(warned([closed(3, 'unknown', 'unknown')])).toEqual([]);
  });

  it('at rest the others are told as they were read, however high above the pump all stand', () => {
    const higher = threeGauges.map((one) => ({ ...one, heightM: 2 }));
    expect(warned([closed(3, 3.5, 3.5)], null, siUnits, higher)).toEqual(['G1 3 bar others 3.5']);
  });

  it('with water running a rise beyond its uncertainty (95 %) and a hair', () => {
    // without a closed reading: reading, gain and offset of both gauges
    const own = (bar: number) => Math.hypot(0.05, 0.005 * bar, 0.06);
    const least = 2 * Math.hypot(own(1), own(1.2)) + 0.02;
    expect(least).toBeCloseTo(0.241, 3);
    expect(warned([open(1, 1.23, 'unknown')])).toEqual([]);
    expect(warned([open(1, 1.25, 'unknown')])).toEqual(['G3 over G1 by 0.25 bar, one tap']);
    expect(warned([open(1, 0.5, 1.2)])).toEqual(['G5 over G3 by 0.7 bar, one tap']);
    // water loses pressure on its way: a fall is nothing odd
    expect(warned([open(3, 1, 0.2)])).toEqual([]);
  });

  it('offsets that the closed reading told are out of it', () => {
    const shut = closed(3, 3.2, 'unknown');
    expect(warned([open(1, 1.3, 'unknown')], shut)).toEqual([]);
    expect(warned([open(1, 1.5, 'unknown')], shut)).toEqual(['G3 over G1 by 0.3 bar, one tap']);
  });

  it('a state with the taps shut does not stop the next from being looked at', () => {
    expect(warned([closed(3, 3, 3), open(1, 1.5, 'unknown')])).toHaveLength(1);
  });

  it('what is odd about the plant itself comes first, its pressures in the reader’s unit', () => {
    const line = [
      { id: 'tank', kind: 'tank' },
      {
        ...{ id: 'pump', kind: 'pump' },
        control: { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 },
      },
      { id: 'vessel', kind: 'vessel' },
      { id: 'G', kind: 'gauge', rangeBar: 2.5 },
      { id: 'house', kind: 'house' },
    ];
    const judgement = {
      facts: { plant: { name: 'low', line }, readings: new Map(), offsets: null },
      model: { gauges: [], curves: { datumM: 0 } },
    } as unknown as Judgement;
    expect(warningsFor(judgement, words, siUnits)).toEqual([
      { id: 'gauge-range-low', text: 'G ends at 2.5 bar, pump at 3.5 bar', about: 'plant' },
    ]);
    const bare = warningsFor(judgement, { ...words, warnings: {} }, siUnits);
    expect(bare).toEqual([{ id: 'gauge-range-low', text: 'gauge-range-low', about: 'plant' }]);
  });
});
