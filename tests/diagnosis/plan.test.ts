import { describe, expect, it } from 'vitest';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import { optionsOf } from '../../shared/diagnosis/options.ts';
import { placesOf } from '../../shared/diagnosis/place-shares.ts';
import { planFor } from '../../shared/diagnosis/plan.ts';
import type { SegmentReading } from '../../shared/diagnosis/result.ts';
import { blockOf, setIndex } from '../../shared/diagnosis/sets.ts';
import { strategyOf } from '../../shared/diagnosis/strategy.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { words } from './made-words.ts';

/** A made rule set of few causes and jobs, and a posterior of round figures. */
const hydraulic = blockOf(['blocked', 'pump']);
const [blocked, pump] = [setIndex(hydraulic, 0), setIndex(hydraulic, 1)];
const both = setIndex(hydraulic, 0, 1);
const row = (chances: Record<number, number>) =>
  Float64Array.from(hydraulic.sets, (_, i) => chances[i] ?? 0);
const line = [
  { id: 'pump', kind: 'pump' },
  { id: 'a', kind: 'filter', medium: 'sediment' },
  { id: 'b', kind: 'filter', medium: 'sediment' },
  { id: 'c', kind: 'filter', medium: 'carbon' },
  { id: 'uv', kind: 'uv' },
  { id: 'house', kind: 'house' },
];
const job = (by: string, minutes: number, cures: object, more: object = {}) => ({
  ...{ by, minutes, money: 0, cures, when: [] },
  ...more,
});
const jobs = {
  change: job('householder', 10, { blocked: 'surely' }, { perPart: true, money: 7 }),
  mend: job('technician', 60, { pump: 'mostly', blocked: 'seldom' }, { money: 30 }),
  lamp: job('householder', 20, { old: 'mostly' }),
  relamp: job('technician', 20, { old: 'surely' }),
  wait: job('householder', 1, { 'nothing-wrong': 'surely' }),
  visit: job('technician', 500, {}, { lastResort: true }),
  fault: job('householder', 1, { blocked: 'surely' }, { answers: ['x'] }),
  other: job('householder', 1, { gone: 'surely' }),
  barred: job(
    'householder',
    1,
    { blocked: 'surely' },
    { when: [{ notAnswered: { question: 'sound', oneOf: ['hums'] } }] },
  ),
};
const made = (probabilities: Record<string, number>, differs: object = {}) =>
  ({
    rules: {
      head: {
        frequencies: { seldom: 0.1, half: 0.5, mostly: 0.8, surely: 1 },
        visitMinutes: { technician: 90, plumber: 120, electrician: 150 },
        minutesPerMoney: 0,
      },
      causes: {
        blocked: { in: 'sediment' },
        pump: { in: 'pump' },
        taste: { in: 'carbon' },
        old: { in: 'uv' },
      },
      jobs,
      questions: {},
    },
    probabilities: new Map(Object.entries(probabilities)),
    facts: { plant: { line }, values: new Map([['sound', 'hums']]), notAgain: new Set() },
    suspects: {
      quality: [
        { cause: 'taste', part: 'c', odds: 0.3 },
        { cause: 'taste', part: 'd', odds: 0.1 },
      ],
      overdue: new Map([['old', { probability: 0.9, part: 'uv' }]]),
    },
    hydraulic,
    candidates: [
      { suspect: { cause: 'blocked', part: 'a' }, cause: 0 },
      { suspect: { cause: 'blocked', part: 'b' }, cause: 0 },
      { suspect: { cause: 'pump', part: 'pump' }, cause: 1 },
    ],
    evidence: {
      weight: row({ 0: 1, [blocked]: 8, [pump]: 4, [both]: 2 }),
      byCandidate: [
        row({ [blocked]: 6, [both]: 1 }),
        row({ [blocked]: 2, [both]: 1 }),
        row({ [pump]: 4, [both]: 2 }),
      ],
    },
    posterior: { row: row({ 0: 0.1, [blocked]: 0.4, [pump]: 0.3, [both]: 0.2 }) },
    ...differs,
  }) as unknown as Judgement;

describe('where a cause sits', () => {
  const places = (cause: string, differs: object = {}) =>
    placesOf(made({}, differs), cause).map(({ id, probability }) => [id, probability]);

  it('hydraulic: each place by what it brings to the sets with that cause', () => {
    // sets with it: 0.4 + 0.2; a brings 6/8 of one and half of the other
    expect(places('blocked')).toEqual([
      ['a', expect.closeTo((0.4 * (6 / 8) + 0.2 / 2) / 0.6, 12)],
      ['b', expect.closeTo((0.4 * (2 / 8) + 0.2 / 2) / 0.6, 12)],
    ]);
    expect(places('pump')).toEqual([['pump', expect.closeTo(1, 12)]]);
  });

  it('likeliest first, alike ones by id; both may be it', () => {
    const alike = row({ [blocked]: 8 });
    const byCandidate = [row({ [blocked]: 2 }), row({ [blocked]: 6 }), alike];
    const evidence = { weight: alike, byCandidate };
    expect(places('blocked', { evidence }).map(([id]) => id)).toEqual(['b', 'a']);
    const two = {
      candidates: ['b', 'a'].map((part) => ({ suspect: { cause: 'blocked', part }, cause: 0 })),
      evidence: { weight: alike, byCandidate: [alike, alike] },
      posterior: { row: row({ [blocked]: 1 }) },
    };
    expect(places('blocked', two)).toEqual([
      ['a', 1],
      ['b', 1],
    ]);
  });

  it('is as likely in each place where the readings rule it out', () => {
    const posterior = { row: row({ 0: 1 }) };
    expect(places('blocked', { posterior })).toEqual([
      ['a', 0.5],
      ['b', 0.5],
    ]);
    expect(places('gone')).toEqual([]);
  });

  it('of the water: by the odds before; of what is overdue: there', () => {
    expect(places('taste')).toEqual([
      ['c', expect.closeTo(0.75, 12)],
      ['d', expect.closeTo(0.25, 12)],
    ]);
    expect(places('old')).toEqual([['uv', 1]]);
  });
});

describe('the jobs that could end something here', () => {
  const options = (probabilities: Record<string, number>, differs: object = {}) =>
    optionsOf(made(probabilities, differs)).map(({ id, parts, cures }) => [
      id,
      parts,
      Object.fromEntries(cures),
    ]);

  it('are those that cure what is possible, the last resort always, those that only answer never', () => {
    expect(options({ pump: 0.5 })).toEqual([
      ['mend', ['pump'], { pump: 0.8 }],
      ['visit', [], {}],
    ]);
    expect(options({ pump: 1e-4 })).toEqual([['visit', [], {}]]);
    // tried, and not to be tried again
    const facts = { ...made({}).facts, notAgain: new Set(['mend']) };
    expect(options({ pump: 0.5 }, { facts }).map(([id]) => id)).toEqual(['visit']);
    expect(options({ pump: 1.01e-4 })).toHaveLength(2);
  });

  it('are done on all the places of the likeliest cause', () => {
    expect(options({ pump: 0.5, blocked: 0.6 })[1]).toEqual([
      ...['mend', ['a', 'b'], { pump: 0.8, blocked: 0.1 }],
    ]);
    expect(options({ pump: 0.5, blocked: 0.4 })[1]?.[1]).toEqual(['pump']);
    // what is no cause of the tables has no place
    expect(options({ 'nothing-wrong': 0.5 })[0]).toEqual(['wait', [], { 'nothing-wrong': 1 }]);
  });

  it('part by part on the likeliest and on each that is at least three in ten; ending what sits there', () => {
    // a 2/3, b 1/3
    expect(options({ blocked: 0.6 })[0]).toEqual(['change', ['a', 'b'], { blocked: 1 }]);
    const shares = (a: number) => ({
      evidence: {
        weight: row({ [blocked]: 1 }),
        byCandidate: [row({ [blocked]: a }), row({ [blocked]: 1 - a }), row({})],
      },
      posterior: { row: row({ [blocked]: 1 }) },
    });
    expect(options({ blocked: 0.6 }, shares(0.75))[0]).toEqual([
      'change',
      ['a'],
      { blocked: 0.75 },
    ]);
    expect(options({ blocked: 0.6 }, shares(0.3))[0]?.[1]).toEqual(['b', 'a']);
    // the likeliest however unlikely: neither place above three in ten
    const few = shares(0.25);
    const evidence = {
      ...few.evidence,
      byCandidate: [row({ [blocked]: 0.25 }), row({ [blocked]: 0.2 }), row({})],
    };
    expect(options({ blocked: 0.6 }, { ...few, evidence })[0]).toEqual([
      ...['change', ['a'], { blocked: expect.closeTo(0.25, 12) }],
    ]);
  });
});

describe('the plan', () => {
  const pricing = {
    of: ({ minutes }: { minutes: number }, parts: number) => minutes + parts / 1000,
    perMinute: 1,
    there: new Set(['householder'] as const),
  };
  const world = (probability: number, ...causes: string[]) => ({ probability, causes });
  const plan = (
    worlds: object[],
    segments: Partial<SegmentReading>[] = [],
    costs?: object,
    differs: object = {},
    audience: 'householder' | 'technician' = 'householder',
  ) =>
    planFor(
      made({ blocked: 0.6, pump: 0.5, old: 0.9, 'nothing-wrong': 0.4 }, differs),
      { list: worlds } as never,
      segments as SegmentReading[],
      pricing as never,
      costs as never,
      { ...words, jobs: { change: words.jobs.clean } } as never,
      audience,
      siUnits,
    );
  const none = { suspects: { quality: [], overdue: new Map() } };
  const first = (...given: Parameters<typeof plan>) => plan(...given).jobs[0];

  it('is the order of least expected cost, each step with what it is done on and looks for', () => {
    const worlds = [world(0.7, 'blocked'), world(0.3, 'pump')];
    const { jobs: told, table } = plan(worlds, [], undefined, none);
    const { steps } = strategyOf(table, [0.7, 0.3], pricing as never);
    expect(told.map(({ job: id }) => id)).toEqual(steps.map(({ option }) => option.id));
    expect(told[0]).toEqual({
      ...{ job: 'change', cause: 'blocked', parts: ['a', 'b'], by: 'householder' },
      // half as long again for the second part
      ...{ minutes: 15, money: null, cures: 0.7 },
      expectedCost: Number(steps[0]?.expectedCost.toFixed(1)),
      lookFor: 'flow back over 0.2 bar',
    });
    expect(told[1]).toMatchObject({ job: 'mend', cause: 'pump', lookFor: '' });
    expect(first(worlds, [], undefined, none, 'technician')?.lookFor).toBe(
      'flow back over 0.2 bar (technician)',
    );
  });

  it('tells money where the case has its own prices: part by part, or once', () => {
    const worlds = [world(0.5, 'blocked'), world(0.5, 'pump')];
    const { jobs: told } = plan(worlds, [], {}, none);
    expect(told.slice(0, 2).map(({ job: id, money }) => [id, money])).toEqual([
      ['change', 14],
      ['mend', 30],
    ]);
  });

  it('names the cartridges of the stretch that costs most, where nothing is wrong', () => {
    const segments = [
      { parts: ['a', 'b'], dropBar: 0.2, tooSmall: false },
      { parts: ['c', 'uv'], dropBar: 0.4, tooSmall: false },
      { parts: ['a'], dropBar: 0.9, tooSmall: true },
    ];
    const nothing = [world(1, 'nothing-wrong')];
    expect(first(nothing, segments, undefined, none)).toMatchObject({
      ...{ job: 'wait', cause: 'nothing-wrong', parts: ['c'] },
    });
    expect(first(nothing, segments.toReversed(), undefined, none)?.parts).toEqual(['c']);
    expect(first(nothing, [], undefined, none)?.parts).toEqual([]);
  });

  it('has what is overdue done before anybody leaves it or calls the last resort', () => {
    const due = { suspects: { quality: [], overdue: new Map([['old', { probability: 0.9 }]]) } };
    const worlds = [world(0.4, 'blocked'), world(0.3, 'pump'), world(0.3, 'nothing-wrong')];
    const ids = plan(worlds, [], undefined, due).jobs.map(({ job: id }) => id);
    expect(ids).toContain('wait');
    const firstWait = Math.min(
      ...['wait', 'visit'].map((id) => ids.indexOf(id)).filter((i) => i >= 0),
    );
    expect(ids.indexOf('relamp')).toBe(firstWait - 1);
  });

  it('ends with the surest job for what is merely overdue, unless it is there already', () => {
    const worlds = [world(1, 'blocked')];
    const due = (probability: number) => ({
      suspects: { quality: [], overdue: new Map([['old', { probability, part: 'uv' }]]) },
    });
    const { jobs: told } = plan(worlds, [], undefined, due(0.5));
    expect(told.map(({ job: id }) => id)).toEqual(['change', 'relamp']);
    // in the uv: one part
    expect(told[1]).toMatchObject({ cause: 'old', parts: ['uv'], cures: 1, expectedCost: 20 });
    expect(plan(worlds, [], undefined, due(0.49)).jobs).toHaveLength(1);
    const already = plan([world(1, 'old')], [], undefined, due(0.9)).jobs;
    expect(already.filter(({ cause }) => cause === 'old').map(({ job: id }) => id)).toEqual([
      ...['relamp'],
    ]);
    const unknown = new Map([['dust', { probability: 0.9, part: 'uv' }]]);
    expect(
      plan(worlds, [], undefined, { suspects: { quality: [], overdue: unknown } }).jobs,
    ).toHaveLength(1);
  });
});
