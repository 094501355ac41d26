import { describe, expect, it } from 'vitest';
import { pricingOf } from '../../shared/diagnosis/cost.ts';
import { nextAsk } from '../../shared/diagnosis/next.ts';
import { optionsOf } from '../../shared/diagnosis/options.ts';
import type { Ask } from '../../shared/diagnosis/predict.ts';
import { expectedCostOf, jobTable } from '../../shared/diagnosis/strategy.ts';
import { worthOf } from '../../shared/diagnosis/worth.ts';
import { twoGauges } from '../two-gauges.ts';
import { judged } from './judged.ts';
import { ruleSet } from './rules.ts';

/** A real case under made questions: what is asked next of them. */
const { judgement: real, worlds } = judged(twoGauges, [{ question: 'complaint', value: ['weak'] }]);
const pricing = pricingOf(ruleSet, 'householder', undefined);
const jobs = jobTable(worlds.list, optionsOf(real), pricing);
const gaugesQuestion = Object.values(ruleSet.questions).find(({ kind }) => kind === 'readings');

const minutes = (effort: number) => ({ householder: effort, agent: effort, technician: effort });
/** No evidence: asked for its own sake wherever it can be asked. */
const plain = (...when: object[]) => ({
  ...{ kind: 'list', combine: 'none', answers: [], alone: [], when, effortMinutes: minutes(1) },
});
/** Mostly "yes" where the cause is there, hardly ever without it. */
const telling = (cause: string, effort: number) => ({
  ...plain(),
  ...{ kind: 'choice', combine: 'one of', answers: ['no', 'yes'], effortMinutes: minutes(effort) },
  ...{ background: { no: 'almost always' }, table: { [cause]: { yes: 'almost always' } } },
});
const readings = (effort: number) => ({ ...gaugesQuestion, effortMinutes: minutes(effort) });
const facts = (asked: string[], differs: object = {}) => ({ asked: new Set(asked), ...differs });

function judgementWith(questions: Record<string, object>, order: string[], differs: object) {
  const rules = { ...ruleSet, head: { ...ruleSet.head, order }, questions };
  return {
    ...real,
    ...{ rules, signContext: { ...real.signContext, rules }, facts: { ...real.facts, ...differs } },
  } as never;
}
const next = (questions: Record<string, object>, order: string[] = [], differs: object = {}) =>
  nextAsk(judgementWith(questions, order, differs), worlds, jobs, pricing, 'householder');
const worth = (ask: Ask, questions: Record<string, object>) => {
  const prior = worlds.list.map(({ probability }) => probability);
  const judgement = judgementWith(questions, [], {});
  const now = expectedCostOf(jobs, prior, pricing);
  return worthOf(ask, judgement, worlds, jobs, pricing, 'householder', now);
};
const asked = (...given: Parameters<typeof next>) => next(...given).ask;

describe('an opening question', () => {
  it('that is no evidence is asked for its own sake, in the order of the rules, once', () => {
    const questions = { b: plain(), a: plain() };
    expect(next(questions, ['a', 'b'])).toEqual({
      ...{
        ask: { question: 'a', taps: null },
        worth: null,
        couldSettle: null,
        couldPart: null,
        couldChange: null,
      },
    });
    expect(asked(questions, ['a', 'b'], facts(['a']))?.question).toBe('b');
    expect(asked(questions, ['a', 'b'], facts(['a', 'b']))).toBeNull();
    expect(asked(questions, ['gone', 'b'])?.question).toBe('b');
  });

  it('is asked once more where nobody knew and its words say so', () => {
    const again = { a: { ...plain(), againIfUnknown: true } };
    const unknown = (times: number) =>
      facts(['a'], { unknown: new Set(['a']), timesUnknown: new Map([['a', times]]) });
    expect(asked(again, ['a'], unknown(1))?.question).toBe('a');
    expect(asked(again, ['a'], unknown(2))).toBeNull();
    expect(asked({ a: plain() }, ['a'], unknown(1))).toBeNull();
    // answered since
    const known = facts(['a'], { unknown: new Set(), timesUnknown: new Map([['a', 1]]) });
    expect(asked(again, ['a'], known)).toBeNull();
  });

  it('is asked where it saves more than half of what it takes', () => {
    const ask = { question: 'a', taps: null };
    const { savingMinutes } = worth(ask, { a: telling('sediment-blocked', 1) });
    expect(savingMinutes).toBeGreaterThan(1);
    const at = (effort: number) => next({ a: telling('sediment-blocked', effort) }, ['a']);
    const matters = at(2 * savingMinutes - 0.01);
    expect(matters.ask).toEqual(ask);
    expect(matters.worth?.savingMinutes).toBeCloseTo(savingMinutes, 9);
    expect([matters.couldSettle, matters.couldChange]).toEqual([null, null]);
    expect(at(2 * savingMinutes + 0.01).ask).toBeNull();
  });

  it('that cannot matter gives way to the next', () => {
    const questions = { a: telling('sediment-blocked', 1e6), b: telling('pump-worn', 0.01) };
    expect(asked(questions, ['a', 'b'])?.question).toBe('b');
  });
});

describe('what shows by itself what was told', () => {
  const questions = { first: plain(), shows: telling('sediment-blocked', 0.01), second: plain() };
  const told = (value: string, lookFirst: object[]) => {
    const values = new Map([['first', [value]]]);
    const judgement = judgementWith(questions, ['first', 'second'], facts(['first'], { values }));
    const { rules } = judgement as { rules: typeof ruleSet };
    const head = { ...rules.head, lookFirst };
    return nextAsk(
      { ...(judgement as object), rules: { ...rules, head } } as never,
      ...([worlds, jobs, pricing, 'householder'] as const),
    ).ask?.question;
  };
  const row = { told: { question: 'first', oneOf: ['alarm'] }, ask: ['shows'] };

  it('comes right after it, and only then', () => {
    expect(told('alarm', [row])).toBe('shows');
    expect(told('weak', [row])).toBe('second');
    expect(told('alarm', [])).toBe('second');
    // after an answer that the order does not name nothing follows
    expect(told('alarm', [{ ...row, told: { question: 'other', oneOf: ['alarm'] } }])).toBe(
      'second',
    );
  });

  it('is left out where it cannot matter', () => {
    expect(told('alarm', [{ ...row, ask: ['gone', 'second'] }])).toBe('second');
  });
});

it('who wants it all looked over is asked the opening questions that hardly matter, too', () => {
  const questions = { first: plain(), little: telling('sediment-blocked', 1e6), last: plain() };
  const order = ['first', 'little', 'last'];
  const told = (value: string) => {
    const values = new Map([['first', [value]]]);
    const judgement = judgementWith(questions, order, facts(['first'], { values }));
    const { rules } = judgement as { rules: typeof ruleSet };
    const head = { ...rules.head, wholeRound: { question: 'first', oneOf: ['routine'] } };
    return nextAsk(
      { ...(judgement as object), rules: { ...rules, head } } as never,
      ...([worlds, jobs, pricing, 'householder'] as const),
    ).ask?.question;
  };
  expect(told('routine')).toBe('little');
  expect(told('weak')).toBe('last');
});

describe('gauges among the opening questions', () => {
  const one = { open: 1 };
  const saving = (taps: 'closed' | typeof one) =>
    worth({ question: 'g', taps }, { g: readings(1) }).savingMinutes;

  it('are read with taps shut first, wherever any reading matters', () => {
    const [shut, open] = [saving('closed'), saving(one)];
    expect(open).toBeGreaterThan(shut);
    // shut taps alone would not be worth it; a tap open is
    const { ask, worth: told } = next({ g: readings(shut + open) }, ['g']);
    expect(ask).toEqual({ question: 'g', taps: 'closed' });
    expect(told?.ask.taps).toEqual(one);
    expect(asked({ g: readings(2 * open + 1) }, ['g'])).toBeNull();
  });

  it('are then read with one tap open, if that matters', () => {
    expect(asked({ g: readings(1) }, ['g'], facts(['g closed']))).toEqual({
      ...{ question: 'g', taps: one },
    });
    const tooDear = { g: readings(2 * saving(one) + 1) };
    expect(asked(tooDear, ['g'], facts(['g closed']))).toBeNull();
  });

  it('are not read where nobody can', () => {
    expect(asked({ g: readings(0.01) }, ['g'], facts(['g']))).toBeNull();
  });
});

describe('where a question can be asked', () => {
  const line = (...more: object[]) => ({
    plant: { ...real.facts.plant, line: [...real.facts.plant.line, ...more] },
  });
  const without = (kind: string) => ({
    plant: { line: real.facts.plant.line.filter((part) => part.kind !== kind) },
  });
  const told = (value: unknown) => ({ values: new Map([['x', value]]) });
  const yes = { question: 'x', oneOf: ['yes', 'so'] };
  it.each<[string, object, object, boolean]>([
    ['one of its places is there', { has: ['uv', 'sediment'] }, {}, true],
    ['none of its places is there', { has: ['uv', 'carbon'] }, {}, false],
    ['its control', { control: ['none', 'pressure-switch'] }, {}, true],
    ['another control', { control: ['flow-controller'] }, {}, false],
    ['a plant without a pump', { control: ['flow-controller'] }, without('pump'), true],
    ['what it follows was answered so', { answered: yes }, told('so'), true],
    ['what it follows was answered otherwise', { answered: yes }, told('no'), false],
    ['what it follows was not answered', { answered: yes }, {}, false],
    ['an item of a list', { answered: yes }, told(['no', 'yes']), true],
    ['no item of a list', { answered: yes }, told(['no']), false],
    ['what rules it out was answered', { notAnswered: yes }, told(['yes']), false],
    ['what rules it out was not', { notAnswered: yes }, told(['no']), true],
    ['as many gauges as it takes', { gauges: { atLeast: 2 } }, {}, true],
    ['too few gauges', { gauges: { atLeast: 3 } }, {}, false],
    ['one more', { gauges: { atLeast: 3 } }, line({ id: 'G3', kind: 'gauge' }), true],
    ['all that it takes', { has: ['sediment'], gauges: { atLeast: 3 } }, {}, false],
  ])('%s', (_, condition, differs, can) => {
    const ask = asked({ a: plain(condition) }, ['a'], differs);
    expect(ask).toEqual(can ? { question: 'a', taps: null } : null);
  });

  it('every condition must hold', () => {
    const [has, not] = [{ has: ['sediment'] }, { has: ['uv'] }];
    expect(asked({ a: plain(has, not) }, ['a'])).toBeNull();
    expect(asked({ a: plain(not, has) }, ['a'])).toBeNull();
    expect(asked({ a: plain(has, has) }, ['a'])).not.toBeNull();
  });

  it('a pump whose control nobody named may have any', () => {
    const pump = { id: 'pump', kind: 'pump' };
    const unnamed = {
      plant: { line: real.facts.plant.line.map((part) => (part.kind === 'pump' ? pump : part)) },
    };
    expect(asked({ a: plain({ control: ['flow-controller'] }) }, ['a'], unnamed)).not.toBeNull();
  });
});

describe('after the opening questions', () => {
  const questions = {
    little: telling('pump-worn', 0.01),
    best: telling('sediment-blocked', 1),
    dear: telling('sediment-blocked', 400),
  };
  const net = (question: string, of: Record<string, object> = questions) => {
    const { savingMinutes, effortMinutes } = worth({ question, taps: null }, of);
    return savingMinutes - effortMinutes;
  };

  it('the question that saves most beyond its effort is asked', () => {
    expect(net('best')).toBeGreaterThan(net('little'));
    const { ask, worth: told, couldSettle } = next(questions);
    expect(ask?.question).toBe('best');
    expect(told?.ask).toEqual(ask);
    expect(couldSettle).toBeNull();
    expect(asked(questions, [], facts(['best']))?.question).toBe('little');
  });

  it('none where each takes more than it saves; the one that would tell most is named', () => {
    expect(net('dear')).toBeLessThan(0);
    const dear = { a: telling('pump-worn', 400), b: telling('sediment-blocked', 400) };
    const tells = (question: string) => worth({ question, taps: null }, dear).information;
    expect(tells('b')).toBeGreaterThan(Math.max(0.1, tells('a')));
    const { ask, couldSettle } = next(dear);
    expect(ask).toBeNull();
    expect(couldSettle?.ask.question).toBe('b');
    // what tells next to nothing would not settle it
    const vague = { a: { ...telling('pump-worn', 400), table: {} } };
    expect(next(vague).couldSettle).toBeNull();
    expect(next({})).toEqual({
      ask: null,
      worth: null,
      couldSettle: null,
      couldPart: null,
      couldChange: null,
    });
  });

  it('and the one that would tell the two likeliest from each other, whatever tells more of others', () => {
    // the likeliest two of the made worlds, and one that speaks of neither
    const dear = { a: telling('pump-worn', 400), b: telling('sediment-blocked', 400) };
    const { couldPart } = next(dear);
    expect(couldPart?.apart).toBeGreaterThan(0.1);
    for (const question of Object.keys(dear))
      expect(worth({ question, taps: null }, dear).apart).toBeLessThanOrEqual(
        couldPart?.apart ?? 0,
      );
    expect(next({ a: { ...telling('pump-worn', 400), table: {} } }).couldPart).toBeNull();
  });

  it('the answer that could speak most against the leading cause is named with either', () => {
    const falls = (question: string) => worth({ question, taps: null }, questions).leadingFallsTo;
    expect(falls('best')).toBeLessThan(falls('little'));
    expect(next(questions).couldChange?.ask.question).toMatch(/best|dear/);
    const { little, dear } = questions;
    expect(next({ little, dear }).couldChange?.ask.question).toBe('dear');
    expect(next({ dear, little }).couldChange?.ask.question).toBe('dear');
    expect(next({ dear }).couldChange?.ask.question).toBe('dear');
  });

  it('opening questions left out are not asked again here', () => {
    const { ask, couldChange } = next({ a: telling('sediment-blocked', 1e6) }, ['a']);
    expect([ask, couldChange]).toEqual([null, null]);
  });

  it('gauges may be read once more with as many taps as the house feeds at once', () => {
    const g = readings(1e6);
    const done = ['g closed', 'g open 1'];
    const could = (more: string[], differs: object = {}, question: object = g) =>
      next({ g: question }, ['g'], facts([...done, ...more], differs)).couldChange?.ask ?? null;
    expect(could([])).toEqual({ question: 'g', taps: { open: 2 } });
    const house = (need: object) => ({
      plant: {
        line: real.facts.plant.line.map((p) => (p.kind === 'house' ? { ...p, need } : p)),
      },
    });
    expect(could([], house({ open: 3 }))?.taps).toEqual({ open: 3 });
    expect(could([], house({ open: 1 }))?.taps).toEqual({ open: 2 });
    expect(could(['g open 2'])).toBeNull();
    expect(could(['g'])).toBeNull();
    expect(could([], {}, { ...g, when: [{ gauges: { atLeast: 3 } }] })).toBeNull();
    expect(could([], {}, telling('pump-worn', 1e6))).toBeNull();
  });
});
