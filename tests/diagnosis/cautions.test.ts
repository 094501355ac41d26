import { describe, expect, it } from 'vitest';
import { cautionsFor, stoppedBy } from '../../shared/diagnosis/cautions.ts';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import type { PlannedJob, Stopped } from '../../shared/diagnosis/result.ts';
import type { Words } from '../../shared/ruleset/words.ts';

/** What is cautioned against, under made rules: one caution for each kind of condition. */
const choice = { kind: 'choice', alone: [], answers: ['brown', 'clear'], combine: 'one of' };
const rulesWith = (cautions: object) => ({
  head: {
    urgent: [{ question: 'who', oneOf: ['infant'] }],
    soon: [
      { question: 'who', oneOf: ['ill'] },
      { question: 'look', oneOf: ['brown'] },
    ],
  },
  causes: {
    germs: { hazard: 'microbes' },
    worms: { hazard: 'microbes' },
    rust: { hazard: 'none' },
  },
  questions: {
    look: choice,
    who: { kind: 'list', combine: 'none', alone: [], answers: [] },
    danger: { kind: 'list', combine: 'none', againIfUnknown: true },
  },
  dangers: { shock: { cautions: ['dry'] }, fuel: {} },
  cautions,
});
interface Given {
  values?: Record<string, unknown>;
  unknown?: string[];
  probabilities?: Record<string, number>;
  line?: object[];
}
const judgementOf = (cautions: object, given: Given = {}) =>
  ({
    rules: rulesWith(cautions),
    facts: {
      notToDrink: [],
      values: new Map(Object.entries(given.values ?? {})),
      told: new Map(Object.entries(given.values ?? {})),
      unknown: new Set(given.unknown),
      plant: { line: given.line ?? [{ id: 'house', kind: 'house' }] },
    },
    probabilities: new Map(Object.entries(given.probabilities ?? {})),
  }) as unknown as Judgement;
const words = {
  cautions: { x: { householder: 'mind', technician: 'mind it' } },
  dangers: { shock: { call: { householder: 'call A', technician: 'call B' } } },
} as unknown as Words;
const stop: Stopped = { because: ['shock'], call: '' };
const isRaised = (
  when: object,
  given: Given = {},
  stopped: Stopped | null = null,
  plan: Partial<PlannedJob>[] = [],
) =>
  cautionsFor(
    judgementOf({ x: { when: [when] } }, given),
    stopped,
    plan as PlannedJob[],
    words,
    'householder',
  ).length === 1;

describe('a caution is raised', () => {
  const brown = { question: 'look', oneOf: ['brown'] };
  const microbes = { hazard: 'microbes', atLeast: 0.3 };
  const germs = { cause: 'germs', atLeast: 0.3 };
  const uv = { id: 'uv', kind: 'uv' };
  const carbon = { id: 'c', kind: 'filter', medium: 'carbon' };
  it.each<[string, object, Given, boolean]>([
    ['by an answer', brown, { values: { look: 'brown' } }, true],
    ['not by another', brown, { values: { look: 'clear' } }, false],
    ['not by what was not asked', brown, {}, false],
    [
      'not by a question that is gone',
      { question: 'x', oneOf: ['a'] },
      { values: { x: 'a' } },
      false,
    ],
    [
      'by the likeliest cause of a hazard',
      microbes,
      { probabilities: { germs: 0.1, worms: 0.3 } },
      true,
    ],
    [
      'not by two that together would',
      microbes,
      { probabilities: { germs: 0.29, worms: 0.29 } },
      false,
    ],
    ['not by a cause of no hazard', microbes, { probabilities: { rust: 1 } }, false],
    ['by a cause', germs, { probabilities: { germs: 0.3 } }, true],
    ['not by one less likely', germs, { probabilities: { germs: 0.29, worms: 1 } }, false],
    ['not by one this plant cannot have', germs, {}, false],
    ['by a warning of the plant', { warning: 'uv-not-last' }, { line: [uv, carbon] }, true],
    ['not by another warning', { warning: 'gauge-range-low' }, { line: [uv, carbon] }, false],
    ['where nobody knows of a danger', { stopped: true }, { unknown: ['danger'] }, true],
    ['not where something else is not known', { stopped: true }, { unknown: ['look'] }, false],
    ['by who lives there, urgent', { household: true }, { values: { who: ['infant'] } }, true],
    ['by who lives there, soon', { household: true }, { values: { who: ['x', 'ill'] } }, true],
    ['not by others who live there', { household: true }, { values: { who: ['x'] } }, false],
    ['not by what is no list', { household: true }, { values: { who: 'ill' } }, false],
    ['not by evidence that presses', { household: true }, { values: { look: ['brown'] } }, false],
    ['not by an empty house', { household: true }, {}, false],
  ])('%s', (_, when, given, raised) => {
    expect(isRaised(when, given)).toBe(raised);
  });

  it('by danger, and by what is planned', () => {
    expect(isRaised({ stopped: true }, {}, stop)).toBe(true);
    expect(isRaised({ stopped: true })).toBe(false);
    const plan = (...steps: Partial<PlannedJob>[]) => steps;
    expect(isRaised({ job: 'a' }, {}, null, plan({ job: 'b' }, { job: 'a' }))).toBe(true);
    expect(isRaised({ job: 'a' }, {}, null, plan({ job: 'b' }))).toBe(false);
    const trade = (by: PlannedJob['by']) => isRaised({ licensedJob: true }, {}, null, plan({ by }));
    expect([trade('electrician'), trade('plumber')]).toEqual([true, true]);
    expect([trade('householder'), trade('technician')]).toEqual([false, false]);
  });

  it('by any one of its conditions, each once, in the order of the rules, in the reader’s words', () => {
    const cautions = {
      b: { when: [brown, germs] },
      dry: { when: [] },
      x: { when: [germs, brown] },
      never: { when: [] },
    };
    const given = { probabilities: { germs: 1 } };
    const told = (stopped: Stopped | null, audience: 'householder' | 'technician') =>
      cautionsFor(judgementOf(cautions, given), stopped, [], words, audience);
    expect(told(null, 'householder')).toEqual([
      { id: 'b', text: 'b' },
      { id: 'x', text: 'mind' },
    ]);
    expect(told(null, 'technician')[1]?.text).toBe('mind it');
    // a danger sign brings its own
    expect(told(stop, 'householder').map(({ id }) => id)).toEqual(['b', 'dry', 'x']);
    const others = { because: ['fuel', 'gone'], call: '' };
    expect(told(others, 'householder').map(({ id }) => id)).toEqual(['b', 'x']);
  });
});

describe('danger stops everything', () => {
  const stopped = (values: Record<string, unknown>, audience: 'householder' | 'technician') =>
    stoppedBy(judgementOf({}, { values }), words, audience);

  it('naming each sign and whom to call', () => {
    expect(stopped({ danger: ['shock', 'fuel'] }, 'householder')).toEqual({
      ...{ because: ['shock', 'fuel'], call: 'call A\n\nfuel' },
    });
    expect(stopped({ danger: ['shock'] }, 'technician')?.call).toBe('call B');
  });

  it('unless no sign was seen, or nothing was answered, or the list is of something else', () => {
    expect(stopped({ danger: [] }, 'householder')).toBeNull();
    expect(stopped({}, 'householder')).toBeNull();
    expect(stopped({ danger: 'shock' }, 'householder')).toBeNull();
    expect(stopped({ who: ['infant'] }, 'householder')).toBeNull();
  });
});
