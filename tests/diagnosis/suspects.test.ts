import { describe, expect, it } from 'vitest';
import type { Facts } from '../../shared/case/facts.ts';
import { suspectsOf } from '../../shared/diagnosis/suspects.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';

describe('how likely a cause is before anything was observed', () => {
  const cause = (given: object) => ({
    ...{
      block: 'hydraulic',
      in: 'sediment',
      ratePerYear: 2,
      noticedDays: 73,
      changes: [],
      afterWork: {},
    },
    ...given,
  });
  const suspects = (causes: object, given: object = {}, more: object[] = []) =>
    suspectsOf(
      {
        ...{ today: '2026-11-25', values: new Map(), work: [] },
        plant: {
          line: [
            { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
            { id: 'a', kind: 'filter', medium: 'sediment', fittedOn: '2025-11-25' },
            ...more,
            { id: 'house', kind: 'house' },
          ],
        },
        ...given,
      } as unknown as Facts,
      {
        head: { frequencies: { mostly: 0.8 } },
        causes,
        questions: {
          recent: { kind: 'list', combine: 'none' },
          seen: { kind: 'list', combine: 'any' },
        },
        jobs: { clean: { cures: { x: 'mostly' }, countsAs: 'filters' }, look: { cures: {} } },
      } as unknown as RuleSet,
    );
  const oddsOf = (given: object, facts: object = {}, more: object[] = []) =>
    suspects({ x: cause(given) }, facts, more).hydraulic.map(({ odds }) => Number(odds.toFixed(6)));

  it('is its rate times the time until somebody notices', () => {
    expect(oddsOf({})).toEqual([0.4]);
    expect(suspects({ x: cause({ block: 'quality' }) })).toMatchObject({
      hydraulic: [],
      quality: [{ cause: 'x', part: 'a', odds: expect.closeTo(0.4, 9) }],
    });
  });

  it('grows with age over life to the power 1.5, from 0.15 to 4 times', () => {
    const times = (lifeMonths: number) => (oddsOf({ lifeMonths })[0] ?? 0) / 0.4;
    expect(times(6)).toBeCloseTo((365 / 182.625) ** 1.5, 4);
    expect(times(24)).toBeCloseTo((365 / 730.5) ** 1.5, 4);
    expect(times(1)).toBeCloseTo(4, 4);
    expect(times(120)).toBeCloseTo(0.15, 4);
  });

  it('is shared by the places it can be in, unless each has its own', () => {
    const second = [{ id: 'b', kind: 'filter', medium: 'sediment' }];
    expect(oddsOf({}, {}, second)).toEqual([0.2, 0.2]);
    expect(oddsOf({ each: true }, {}, second)).toEqual([0.4, 0.4]);
  });

  it('follows recent work, told or recorded, and what that work cured where it was done', () => {
    const afterWork = { filters: 3, tank: 5 };
    const told = { values: new Map([['recent', ['tank']]]) };
    expect(oddsOf({ afterWork }, told)).toEqual([2]);
    expect(oddsOf({ afterWork }, { values: new Map([['seen', ['tank']]]) })).toEqual([0.4]);
    const done = (job: string, part: string) => ({
      work: [{ job, parts: [part], day: '2026-11-20' }],
    });
    expect(oddsOf({ afterWork }, done('clean', 'other'))).toEqual([1.2]);
    expect(oddsOf({ afterWork }, done('clean', 'a'))).toEqual([0.24]);
    expect(oddsOf({ afterWork }, done('look', 'a'))).toEqual([0.4]);
    expect(oddsOf({ afterWork }, done('gone', 'a'))).toEqual([0.4]);
  });

  it('follows the cold where it comes of cold, and only in water known to be that cold', () => {
    const belowC = { waterC: 5, times: 10 };
    const line = [{ id: 'a', kind: 'filter', medium: 'sediment' }];
    const at = (waterTempC?: number) => ({ plant: { line, waterTempC } });
    expect(oddsOf({ belowC }, at(4))).toEqual([4]);
    expect(oddsOf({ belowC }, at(5))).toEqual([0.4]);
    expect(oddsOf({ belowC }, at())).toEqual([0.4]);
    expect(oddsOf({}, at(1))).toEqual([0.4]);
  });

  it('is nothing where the pump has another control, or no part is there', () => {
    expect(oddsOf({ control: ['flow-controller'] })).toEqual([]);
    expect(oddsOf({ control: ['pressure-switch', 'none'] })).toEqual([0.4]);
    expect(oddsOf({ in: 'uv' })).toEqual([]);
    const on = (...line: object[]) => ({ plant: { line: [...line, { id: 'a', kind: 'house' }] } });
    const bound = { in: 'house', control: ['flow-controller'] };
    // a pump whose control nobody named may have any; a plant without a pump has none
    expect(oddsOf(bound, on({ id: 'pump', kind: 'pump' }))).toEqual([0.4]);
    expect(oddsOf(bound, on())).toEqual([]);
    expect(oddsOf({ ...bound, control: ['none'] }, on())).toEqual([0.4]);
  });

  it('of a life that is over goes by the date, apart from what is sought', () => {
    const past = (fittedOn: string) =>
      suspects({ x: cause({ pastLife: true, lifeMonths: 12, in: 'carbon' }) }, {}, [
        { id: 'c', kind: 'filter', medium: 'carbon', fittedOn },
      ]);
    expect(past('2025-11-25').hydraulic).toEqual([]);
    expect(past('2025-11-25').overdue.get('x')?.part).toBe('c');
    // on the day itself as likely as not, of the nine records in ten that are kept up
    expect(past('2025-11-25').overdue.get('x')?.probability).toBeCloseTo(0.02 + 0.88 / 2, 2);
    expect(past('2024-11-25').overdue.get('x')?.probability).toBeCloseTo(0.9, 3);
    expect(past('2026-11-20').overdue.get('x')?.probability).toBeCloseTo(0.02, 3);
  });

  it('of a life that is over goes by the counter, which is nearly exact', () => {
    const past = (hours: number) =>
      suspectsOf(
        {
          ...{ today: '2026-11-25', values: new Map([['burnt', hours]]), work: [] },
          plant: { line: [{ id: 'uv', kind: 'uv', lampLifeH: 9000 }] },
        } as unknown as Facts,
        {
          ...{ head: { frequencies: {} }, jobs: {} },
          causes: { old: cause({ in: 'uv', pastLife: true }) },
          questions: { burnt: { kind: 'hours' } },
        } as unknown as RuleSet,
      ).overdue.get('old')?.probability;
    // a logistic about its life, 2 % of it wide
    const logistic = (share: number) => 1 / (1 + Math.exp(-((share - 1) * 1.7) / 0.02));
    for (const hours of [8000, 8900, 9000, 9100, 9900])
      expect(past(hours)).toBeCloseTo(0.01 + 0.98 * logistic(hours / 9000), 9);
  });

  it('of a life that is over is sought like any other where an answer asks for it', () => {
    const told = (values: Map<string, unknown>, fittedOn: string) =>
      suspects(
        {
          x: cause({
            ...{ pastLife: true, lifeMonths: 12, in: 'carbon', block: 'quality' },
            soughtWhen: [{ question: 'seen', oneOf: ['alarm'] }],
          }),
        },
        { values },
        [{ id: 'c', kind: 'filter', medium: 'carbon', fittedOn }],
      );
    const alarm = new Map([['seen', ['alarm']]]);
    expect(told(new Map([['seen', ['weak']]]), '2024-11-25').quality).toEqual([]);
    const sought = told(alarm, '2024-11-25');
    expect(sought.overdue.size).toBe(0);
    // nine records in ten are kept up; the rest is as rare as without any age (0.4 : 1)
    const odds = (past: number) => {
      const chance = 0.88 * past + 0.02 * (0.4 / 1.4);
      return chance / (1 - chance);
    };
    expect(sought.quality[0]?.odds).toBeCloseTo(odds(1), 6);
    expect(told(alarm, '2026-11-20').quality[0]?.odds).toBeCloseTo(odds(0), 6);
  });

  it('of several past their life names the likeliest', () => {
    const lamps = (...dates: string[]) =>
      suspects(
        { x: cause({ pastLife: true, lifeMonths: 12, in: 'carbon' }) },
        {},
        dates.map((fittedOn, i) => ({ id: `c${i}`, kind: 'filter', medium: 'carbon', fittedOn })),
      ).overdue.get('x')?.part;
    expect(lamps('2026-11-01', '2024-11-25')).toBe('c1');
    expect(lamps('2024-11-25', '2026-11-01')).toBe('c0');
    expect(lamps('2026-11-01', '2026-11-01')).toBe('c0');
  });
});
