import { describe, expect, it } from 'vitest';
import type { Facts } from '../../shared/case/facts.ts';
import { ageOf } from '../../shared/diagnosis/ages.ts';
import type { Part } from '../../shared/plant/schema.ts';
import type { Cause } from '../../shared/ruleset/cause.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';

describe('ages', () => {
  const facts = (given: object = {}) =>
    ({ today: '2026-11-25', values: new Map(), work: [], ...given }) as unknown as Facts;
  const rules = {
    questions: { changed: { kind: 'dates' }, burnt: { kind: 'hours' } },
    jobs: { 'change-it': { renews: true }, 'look-at-it': {} },
  } as unknown as RuleSet;
  const filter = (more = {}) => ({ id: 'f', kind: 'filter', medium: 'carbon', ...more }) as Part;
  const lamp = (more = {}) => ({ id: 'uv', kind: 'uv', lampLifeH: 8766, ...more }) as Part;
  const year = { lifeMonths: 12 } as Cause;
  const age = (part: Part, given = {}) => ageOf(year, part, facts(given), rules);

  it('are shares of the life that the part’s own label gives, else the rule set', () => {
    expect(age(filter({ fittedOn: '2025-11-25' }))?.share).toBeCloseTo(365 / 365.25, 9);
    expect(age(filter({ fittedOn: '2025-11-25', lifeMonths: 6 }))?.share).toBeCloseTo(
      730 / 365.25,
      9,
    );
    expect(age(lamp({ lampFittedOn: '2025-11-25', lampLifeH: 17_532 }))?.share).toBeCloseTo(
      0.4997,
      4,
    );
    expect(ageOf({} as Cause, filter({ fittedOn: '2025-11-25' }), facts(), rules)).toBeNull();
    expect(age(filter())).toBeNull();
    expect(age(filter({ fittedOn: '2027-01-01' }))).toEqual({ share: 0, source: 'date' });
  });

  it('count from the latest day it was new: plant, answer by part or medium, finished work', () => {
    const share = (given: object) =>
      ((age(filter({ fittedOn: '2024-11-25' }), given)?.share ?? 0) * 365.25).toFixed(3);
    const dates = (by: object) => ({ values: new Map([['changed', by]]) });
    expect(share({})).toBe('730.000');
    expect(share(dates({ f: '2026-11-15' }))).toBe('10.000');
    expect(share(dates({ carbon: '2026-11-05' }))).toBe('20.000');
    expect(share(dates({ sediment: '2026-11-05' }))).toBe('730.000');
    const work = (job: string, part: string) => ({
      work: [{ job, parts: [part], day: '2026-11-24' }],
    });
    expect(share(work('change-it', 'f'))).toBe('1.000');
    expect(share(work('look-at-it', 'f'))).toBe('730.000');
    expect(share(work('change-it', 'other'))).toBe('730.000');
  });

  it('of a lamp go by its counter, unless it was changed since', () => {
    const counted = { values: new Map([['burnt', 4383]]) };
    expect(age(lamp(), counted)).toEqual({ share: expect.closeTo(0.5, 9), source: 'counter' });
    const work = [{ job: 'change-it', parts: ['uv'], day: '2026-11-25' }];
    expect(age(lamp(), { ...counted, work })).toEqual({ share: 0, source: 'date' });
  });
});
