import { describe, expect, it } from 'vitest';
import { dispatchFor } from '../../shared/diagnosis/dispatch.ts';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import { priorityOf } from '../../shared/diagnosis/priority.ts';
import type { PlannedJob } from '../../shared/diagnosis/result.ts';
import { blockOf, setIndex } from '../../shared/diagnosis/sets.ts';
import { comesBefore, endedBy } from '../../shared/diagnosis/who.ts';

/** Words that are their own figures, four causes, a handful of jobs. */
const frequencies = { seldom: 0.1, half: 0.5, mostly: 0.8, surely: 1 };
const jobs = {
  clean: { by: 'householder', cures: { filter: 'mostly' }, van: ['brush'] },
  change: { by: 'householder', cures: { filter: 'surely' }, van: ['cartridge', 'key'] },
  pump: { by: 'technician', cures: { pump: 'mostly', filter: 'seldom' }, van: ['pump', 'key'] },
  tune: { by: 'technician', cures: { pump: 'half' }, van: ['screwdriver'] },
  wire: { by: 'electrician', cures: { pump: 'surely' }, van: ['cable'] },
  well: { by: 'technician', cures: { iron: 'half' }, van: ['chlorine'] },
  visit: { by: 'technician', cures: { smell: 'surely' }, van: ['everything'], lastResort: true },
};
const hydraulic = blockOf(['pump', 'filter']);
const quality = blockOf(['iron', 'smell']);
const columns = quality.sets.length;
const joint = (at: Record<string, number>) => {
  const all = new Float64Array(hydraulic.sets.length * columns);
  for (const [key, chance] of Object.entries(at)) {
    const [h = 0, q = 0] = key.split(' ').map(Number);
    all[h * columns + q] = chance;
  }
  return all;
};
const judgementOf = (
  probabilities: Record<string, number>,
  at: Record<string, number> = {},
  values: Record<string, unknown> = {},
  unknown: readonly string[] = [],
) =>
  ({
    rules: {
      head: {
        frequencies,
        urgent: [
          { question: 'complaint', oneOf: ['none', 'brown'] },
          { question: 'test', oneOf: ['germs-present'] },
        ],
        soon: [
          { question: 'complaint', oneOf: ['weak'] },
          { question: 'who', oneOf: ['baby'] },
        ],
      },
      causes: { pump: {}, filter: {}, iron: {}, smell: {} },
      jobs,
      questions: {
        ...{ danger: { againIfUnknown: true }, smell: {} },
        test: { answers: ['germs-present'], bands: { germs: [{ answer: 'germs-present' }] } },
      },
    },
    probabilities: new Map(Object.entries(probabilities)),
    ...{ hydraulic, quality, posterior: { joint: joint(at) } },
    facts: { values: new Map(Object.entries(values)), unknown: new Set(unknown) },
  }) as unknown as Judgement;
const step = (job: keyof typeof jobs, cures: number) =>
  ({ job, by: jobs[job].by, cures }) as unknown as PlannedJob;

describe('whether somebody goes', () => {
  const unsure = judgementOf({});
  it.each<[string, PlannedJob[], 'phone' | 'send', string | null]>([
    ['nobody where nobody is in the plan', [step('clean', 0.1)], 'phone', null],
    ['nobody where the plan is empty', [], 'phone', null],
    [
      'nobody where what is done at home first ends it often enough',
      [step('clean', 0.35), step('pump', 1)],
      'phone',
      null,
    ],
    [
      'somebody where it ends it less often',
      [step('clean', 0.349), step('pump', 1)],
      'send',
      'technician',
    ],
    [
      'nobody where two things at home together do: 1 − 0.8 × 0.8 = 0.36',
      [step('clean', 0.2), step('change', 0.2), step('pump', 1)],
      'phone',
      null,
    ],
    [
      'what is done at home after the visit counts for nothing',
      [step('pump', 0.1), step('clean', 1)],
      'send',
      'technician',
    ],
    [
      'the first who is not of the house',
      [step('wire', 0.5), step('pump', 1)],
      'send',
      'electrician',
    ],
  ])('%s', (_, plan, decision, who) => {
    expect(dispatchFor(unsure, plan, null)).toMatchObject({ decision, who });
  });

  it('nobody while danger stops it all, and that is urgent', () => {
    const stopped = { because: ['shock'], call: 'call' };
    expect(dispatchFor(unsure, [step('pump', 1)], stopped)).toEqual({
      ...{ decision: 'stop', who: null, van: [], oneVisit: null, priority: 'urgent' },
    });
  });

  it('on the telephone takes no van and no visit', () => {
    expect(dispatchFor(unsure, [], null)).toEqual({
      ...{ decision: 'phone', who: null, van: [], oneVisit: null, priority: 'normal' },
    });
  });
});

describe('what is on the van', () => {
  const van = (probabilities: Record<string, number>, ...plan: PlannedJob[]) =>
    dispatchFor(judgementOf(probabilities), plan, null).van;

  it('what their own steps and the householder’s take, each thing once', () => {
    expect(van({}, step('pump', 1), step('change', 1))).toEqual(['pump', 'key', 'cartridge']);
    expect(van({}, step('pump', 1), step('wire', 1))).toEqual(['pump', 'key']);
  });

  it('not everything that the last resort might', () => {
    expect(van({}, step('tune', 1), step('visit', 1))).toEqual(['screwdriver']);
  });

  it('what mends any cause of one in ten: by its surest job, of theirs or the householder’s', () => {
    expect(van({ filter: 0.1 }, step('tune', 0.1))).toEqual(['screwdriver', 'cartridge', 'key']);
    expect(van({ filter: 0.099 }, step('tune', 0.1))).toEqual(['screwdriver']);
    // the electrician's job is surer, but he does not come
    expect(van({ pump: 0.5 }, step('tune', 0.1))).toEqual(['screwdriver', 'pump', 'key']);
    // ends it in half the cases: sure enough
    expect(van({ iron: 0.5 }, step('tune', 0.1))).toEqual(['screwdriver', 'chlorine']);
    // a probability that is no cause of the tables
    expect(van({ 'not-listed': 0.9 }, step('tune', 0.1))).toEqual(['screwdriver']);
  });

  it('nothing for a likely cause that none of theirs ends', () => {
    expect(van({ pump: 0.5 }, step('wire', 0.1))).toEqual(['cable']);
    expect(van({ iron: 0.5 }, step('wire', 0.1))).toEqual(['cable']);
  });
});

describe('the chance that one visit is enough', () => {
  const [pump, filter] = [setIndex(hydraulic, 0), setIndex(hydraulic, 1)];
  const both = setIndex(hydraulic, 0, 1);
  const iron = setIndex(quality, 0);
  const visits = (at: Record<string, number>, ...plan: PlannedJob[]) =>
    dispatchFor(judgementOf({}, at), plan, null).oneVisit;

  it('is that of every way things may be, ended by the surest job on the van for each cause', () => {
    const at = {
      [`${pump} 0`]: 0.3,
      [`${filter} 0`]: 0.2,
      [`${both} 0`]: 0.1,
      [`0 ${iron}`]: 0.2,
      [`${pump} ${iron}`]: 0.1,
    };
    // pump 0.8 and filter, by the same job, 0.1; nothing for iron
    expect(visits(at, step('pump', 0.5))).toBeCloseTo(0.3 * 0.8 + 0.2 * 0.1 + 0.1 * 0.8 * 0.1, 3);
    // with the householder's cartridge filter is 1
    expect(visits(at, step('pump', 0.5), step('change', 0.5))).toBeCloseTo(
      0.3 * 0.8 + 0.2 + 0.1 * 0.8,
      3,
    );
    // with what iron takes 0.5
    expect(visits(at, step('pump', 0.5), step('well', 0.5))).toBeCloseTo(
      0.3 * 0.8 + 0.2 * 0.1 + 0.1 * 0.08 + 0.2 * 0.5 + 0.1 * 0.8 * 0.5,
      3,
    );
  });

  it('is told to a thousandth', () => {
    expect(visits({ [`${pump} 0`]: 1 / 3 }, step('pump', 0.5))).toBe(0.267);
  });
});

describe('how soon', () => {
  it('does not wait where nobody can say whether there is danger', () => {
    const withUnknown = (unknown: readonly string[]) =>
      dispatchFor(judgementOf({}, {}, {}, unknown), [], null).priority;
    expect(withUnknown(['danger'])).toBe('soon');
    expect(withUnknown(['smell'])).toBe('normal');
  });

  const priority = (values: Record<string, unknown>) =>
    dispatchFor(judgementOf({}, {}, values), [], null).priority;
  it.each<[string, Record<string, unknown>, string]>([
    ['in its turn where nothing presses', { complaint: ['smell'], who: ['guests'] }, 'normal'],
    ['soon for what is told in a list', { complaint: ['smell', 'weak'] }, 'soon'],
    ['soon for who lives there', { who: 'baby' }, 'soon'],
    ['at once for any of what is urgent', { complaint: ['brown'] }, 'urgent'],
    ['at once where both are told', { complaint: ['weak', 'none'] }, 'urgent'],
    ['in its turn where nothing was told', {}, 'normal'],
    ['at once for what was measured', { test: { germs: 'present' } }, 'urgent'],
    ['in its turn for a good measurement', { test: { germs: 'absent' } }, 'normal'],
  ])('%s', (_, values, expected) => {
    expect(priority(values)).toBe(expected);
  });
});

describe('why a case stands before others', () => {
  it.each([
    [{ complaint: ['brown'], who: ['baby'] }, [], 'urgent', ['complaint']],
    [{ test: { germs: 3 } }, [], 'urgent', ['test']],
    [{ complaint: ['weak'], who: ['baby'] }, [], 'soon', ['complaint', 'who']],
    [{ who: ['baby'] }, ['danger'], 'soon', ['who', 'danger']],
    [{ who: ['adult'] }, [], 'normal', []],
  ])('%j, unknown %j: %s because of %j', (values, unknown, priority, because) => {
    // how figures come to bands is told elsewhere
    const judgement = judgementOf({}, {}, values as Record<string, unknown>, unknown);
    expect(priorityOf(judgement)).toEqual({ priority, because });
  });
});

describe('who comes before the telephone can settle it', () => {
  const technician = { by: 'technician' } as const;
  const clean = { job: 'clean', cures: 0.5 };
  const change = { job: 'change', cures: 0.4 };
  const firstOf =
    (...waiting: readonly string[]) =>
    (one: { job: string }) =>
      waiting.includes(one.job) ? technician : null;

  it('is nobody while the jobs that can be begun are worth trying', () => {
    expect(comesBefore([clean, change], firstOf())).toBeNull();
    expect(comesBefore([change, clean], firstOf('clean'))).toBeNull();
    expect(comesBefore([], firstOf('clean'))).toBeNull();
    // what the householder does first themselves keeps nobody waiting
    expect(comesBefore([clean], () => ({ by: 'householder' as const }))).toBeNull();
  });

  it('is whoever must come first when the rest is not worth trying', () => {
    expect(comesBefore([clean, { job: 'try', cures: 0.2 }], firstOf('clean'))).toBe('technician');
    expect(comesBefore([clean, change], firstOf('clean', 'change'))).toBe('technician');
  });

  it('counts of a later job only what the earlier ones leave to it', () => {
    // the one job that ends it must wait; the others come in where it failed
    const left = [{ job: 'change', cures: 0.8 }, { job: 'try', cures: 0.15 }, clean];
    expect(comesBefore(left, firstOf('change'))).toBe('technician');
    expect(comesBefore([clean, change], firstOf('clean'))).toBe('technician');
  });

  it('reckons the chance of several jobs one after the other, and the share of some of them', () => {
    expect(endedBy([clean, change])).toBeCloseTo(1 - 0.5 * 0.6);
    expect(endedBy([clean, change], (one) => one === change)).toBeCloseTo(0.5 * 0.4);
    expect(endedBy([])).toBe(0);
  });
});
