import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet, words } = latestRuleSet();

/** A plant with a lamp past its year, as many are, and nothing else to worry about. */
const plant = {
  name: 'Fernhollow guesthouse',
  line: [
    { id: 'tank', kind: 'tank' },
    { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
    { id: 'vessel', kind: 'vessel' },
    { id: 'G1', kind: 'gauge' },
    { id: 'sed-1', kind: 'filter', medium: 'sediment' },
    { id: 'G2', kind: 'gauge' },
    { id: 'carbon-1', kind: 'filter', medium: 'carbon' },
    { id: 'G3', kind: 'gauge' },
    { id: 'uv', kind: 'uv', lampFittedOn: '2025-10-01', lampLifeH: 9000 },
    { id: 'house', kind: 'house' },
  ],
};

function cautionsOf(answers: Readonly<Record<string, unknown>>): string[] {
  const list = Object.entries(answers).map(([question, value]) => ({ question, value }));
  const result = diagnose(
    { plant, answers: list, today: '2026-11-25' },
    ruleSet,
    words.en!,
    '2026-11-25',
  );
  return result.cautions.map((caution) => caution.id);
}

const boil = 'boil-or-bottled';
const bottled = 'bottled-do-not-boil';
const calm = { danger: [], smell: 'none', taste: 'none', look: 'clear', 'uv-light': 'on' };

/** Facts of the trade (common practice): answers → the water cautions that they raise, in the order of the table. */
const cases: readonly (readonly [string, Readonly<Record<string, unknown>>, readonly string[]])[] =
  [
    ['nothing noticed', calm, []],
    [
      'milky water that clears from the bottom up',
      { ...calm, complaint: ['look'], look: 'cloudy-clears' },
      [],
    ],
    ['water that stays cloudy', { ...calm, complaint: ['look'], look: 'cloudy-stays' }, [boil]],
    ['brown water', { ...calm, complaint: ['look'], look: 'brown' }, [boil]],
    ['a dark UV indicator', { ...calm, 'uv-light': 'off' }, [boil]],
    ['a light or beep, before anybody looked at the lamp', { complaint: ['alarm'] }, [boil]],
    ['a light or beep, the lamp seen to be on', { ...calm, complaint: ['alarm'] }, []],
    [
      'a smell of fuel in the water',
      { danger: [], complaint: ['smell'], smell: 'plastic-fuel' },
      [bottled],
    ],
    ['a metallic taste', { ...calm, complaint: ['taste'], taste: 'metallic' }, [bottled]],
    ['a danger sign of fuel', { danger: ['fuel-smell'] }, [bottled]],
    ['a danger sign of sewage', { danger: ['sewage-smell'] }, [boil]],
    ['several people ill', { danger: ['illness'] }, [boil]],
  ];

describe('water cautions go by hazard', () => {
  it.each(cases)('%s', (_what, answers, wanted) => {
    const water = cautionsOf(answers).filter((id) => id === boil || id === bottled);
    expect(water).toEqual(wanted);
  });
});

describe('other cautions', () => {
  it('a humming or dry pump is switched off now', () => {
    for (const heard of ['hums', 'runs-dry']) {
      expect(cautionsOf({ complaint: ['no-water'], 'pump-open': heard })).toContain('pump-off-now');
    }
  });
  it('people at risk are named', () => {
    expect(cautionsOf({ household: ['infant'] })).toContain('vulnerable-household');
    expect(cautionsOf({ household: [] })).not.toContain('vulnerable-household');
  });
  it('a danger sign stops', () => {
    expect(cautionsOf({ danger: ['shock'] })).toContain('stop');
    expect(cautionsOf({ danger: [] })).not.toContain('stop');
  });
});
