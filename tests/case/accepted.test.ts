import { describe, expect, it } from 'vitest';
import { chanceOf, DAY, judgeCase, ruleSet } from '../diagnosis/rules.ts';
import { plant } from './one-gauge.ts';

describe('what is accepted', () => {
  it.each(Object.keys(ruleSet.questions))('"unknown" to %s changes no probability', (question) => {
    const before = judgeCase(plant, []);
    const after = judgeCase(plant, [{ question, value: 'unknown' }]);
    expect(after.causes.map(({ id, probability }) => [id, probability])).toEqual(
      before.causes.map(({ id, probability }) => [id, probability]),
    );
  });

  it('a later answer replaces the earlier, and null takes it back', () => {
    const none = judgeCase(plant, []);
    const earthy = judgeCase(plant, [{ question: 'smell', value: 'earthy' }]);
    const changed = judgeCase(plant, [
      { question: 'smell', value: 'rotten-egg' },
      { question: 'smell', value: 'earthy' },
    ]);
    const back = judgeCase(plant, [
      { question: 'smell', value: 'earthy' },
      { question: 'smell', value: null },
    ]);
    expect(changed.causes).toEqual(earthy.causes);
    expect(back.causes).toEqual(none.causes);
  });

  it('the same answerId twice is one answer', () => {
    const answerId = '6f2a4f0e-93ad-4a55-9a2b-0a3d0ef1d2ab';
    const once = judgeCase(plant, [{ answerId, question: 'smell', value: 'earthy' } as never]);
    const twice = judgeCase(plant, [
      { answerId, question: 'smell', value: 'earthy' } as never,
      { answerId, question: 'smell', value: 'none' } as never,
    ]);
    expect(twice.causes).toEqual(once.causes);
  });

  it('no water at all is a flow: it says what no water says, and no probability is lost', () => {
    const flow = (litres: number) =>
      judgeCase(plant, [{ question: 'flow', value: { litres, seconds: 60 } }]);
    const [none, usual] = [flow(0), flow(12)];
    for (const { probability } of none.causes) expect(probability).toBeGreaterThanOrEqual(0);
    expect(chanceOf(none, 'nothing-wrong')).toBeLessThan(0.1 * chanceOf(usual, 'nothing-wrong'));
    for (const cause of ['tank-low', 'power-off', 'pump-tripped', 'pump-unprimed'])
      expect(chanceOf(none, cause)).toBeGreaterThan(10 * chanceOf(usual, cause));
    expect(none.plan.every(({ expectedCost }) => Number.isFinite(expectedCost))).toBe(true);
  });

  it('kPa, psi and bar are the same reading', () => {
    const read = (unit: string, value: number) =>
      judgeCase(plant, [
        { question: 'readings', value: { taps: 'closed', [unit]: { G1: value } } },
      ]);
    const bar = read('bar', 3);
    for (const other of [read('kPa', 300), read('psi', 43.511321)]) {
      other.causes.forEach(({ id, probability }) => {
        expect(probability).toBeCloseTo(bar.causes.find((c) => c.id === id)?.probability ?? -1, 5);
      });
    }
  });

  it('danger unknown is asked once more in other words, and its caution stays', () => {
    const once = judgeCase(plant, [{ question: 'danger', value: 'unknown' }]);
    expect(once.next?.question).toBe('danger');
    expect(once.next?.text).not.toBe(judgeCase(plant, []).next?.text);
    expect(once.cautions.map((c) => c.id)).toContain('stop');
    const twice = judgeCase(plant, [
      { question: 'danger', value: 'unknown' },
      { question: 'danger', value: 'unknown' },
    ]);
    expect(twice.next?.question).not.toBe('danger');
    expect(twice.cautions.map((c) => c.id)).toContain('stop');
  });

  it('a danger sign stops: no next question, no plan, and whom to call', () => {
    const result = judgeCase(plant, [{ question: 'danger', value: ['shock', 'illness'] }]);
    expect(result.stopped?.because).toEqual(['shock', 'illness']);
    expect(result.stopped?.call.length).toBeGreaterThan(20);
    expect(result.next).toBeNull();
    expect(result.plan).toEqual([]);
    expect(result.dispatch.decision).toBe('stop');
    expect(result.cautions.map((c) => c.id)).toEqual(
      expect.arrayContaining(['stop', 'boil-or-bottled']),
    );
  });
});

describe('today', () => {
  it('is the day of the latest answer, as written, else the day given by the system', () => {
    const at = (time: string) =>
      judgeCase(plant, [{ question: 'smell', value: 'none', at: time } as never]).today;
    expect(at('2026-03-01T23:30:00-05:00')).toBe('2026-03-01');
    expect(judgeCase(plant, []).today).toBe(DAY);
  });

  it('is the day of the last moment, though a day written elsewhere is greater', () => {
    const answers = ['2026-03-02T01:00:00+12:00', '2026-03-01T22:00:00Z'].map((at) => ({
      ...{ question: 'smell', value: 'none', at },
    }));
    expect(judgeCase(plant, answers).today).toBe('2026-03-01');
    expect(judgeCase(plant, answers.toReversed()).today).toBe('2026-03-01');
  });
});

describe('a plant with little in it works and says what it assumed', () => {
  it.each([
    [
      'no gauges',
      [
        { id: 'tank', kind: 'tank' },
        { id: 'pump', kind: 'pump' },
        { id: 'f', kind: 'filter', medium: 'carbon' },
        { id: 'house', kind: 'house' },
      ],
    ],
    [
      'no pump',
      [
        { id: 'tank', kind: 'tank' },
        { id: 'f', kind: 'filter', medium: 'sediment' },
        { id: 'house', kind: 'house' },
      ],
    ],
    [
      'everything left out but ids and kinds',
      plant.line.map(({ id, kind, ...rest }) =>
        'medium' in rest ? { id, kind, medium: rest.medium } : { id, kind },
      ),
    ],
  ])('%s', (_, line) => {
    const result = judgeCase({ name: 'little', line }, [
      { question: 'complaint', value: ['weak'] },
    ]);
    expect(result.causes.length).toBeGreaterThan(10);
    expect(result.assumed.length).toBeGreaterThan(5);
    expect(result.next).not.toBeNull();
  });
});
