import { describe, expect, it } from 'vitest';
import { answerText } from '../../shared/interview/answer-text.ts';
import { siUnits, type Units } from '../../shared/ruleset/figures.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet: rules, words } = latestRuleSet();
const english = siUnits;
const spanish: Units = { pressure: 'psi', volume: 'US gal', language: 'es' };

const told = (question: string, value: unknown, units: Units): string => {
  const spoken = words[units.language ?? 'en'];
  if (!spoken) throw new Error(units.language);
  const taps = (value as { taps?: 'closed' | { open: number } }).taps;
  const isReading = rules.questions[question]?.kind === 'readings';
  const step = isReading ? { question, taps } : { question };
  return answerText({ step, value }, rules, spoken, units);
};

describe('an answer is told in words, never as it stands in a file', () => {
  // 1 psi = 6894.757 Pa, 1 US gallon = 3.785412 L (NIST SP 811, appendix B.8)
  it.each([
    [
      'flow',
      { litres: 10, seconds: 61.5, taps: { open: 1 } },
      '10 L, 61.5 s, one tap open',
      '2,6 US gal, 61,5 s, un grifo abierto',
    ],
    ['flow', { litres: 9.5, seconds: 60 }, '9.5 L, 60 s', '2,5 US gal, 60 s'],
    [
      'readings',
      { taps: 'closed', bar: { G1: 3.45, G2: 'unknown' } },
      'G1 3.45 bar, G2 not known',
      'G1 50 psi, G2 no se sabe',
    ],
    [
      'readings',
      { taps: { open: 1 }, psi: { G1: 50 }, flowLpm: 6.5, pump: 'on' },
      'G1 3.4474 bar, 6.5 L/min, pump running',
      'G1 50 psi, 1,7 US gpm, bomba en marcha',
    ],
    ['readings', { taps: 'closed', bar: 'unknown' }, 'not known', 'no se sabe'],
    ['precharge', { bar: 1.7 }, '1.7 bar', '24,7 psi'],
    ['pressure-hold', { lostBar: 0.4, minutes: 7.5 }, '0.4 bar, 7.5 min', '5,8 psi, 7,5 min'],
    [
      'cycle-times',
      { onS: 12.5, offS: 30, taps: 'open' },
      '12.5 s, 30 s, one tap open',
      '12,5 s, 30 s, un grifo abierto',
    ],
    [
      'cycle-times',
      { onS: 12.5, offS: 30, taps: 'closed' },
      '12.5 s, 30 s, all taps shut',
      '12,5 s, 30 s, todos los grifos cerrados',
    ],
    ['tank-level', { m: 1.25 }, '1.25 m', '1,25 m'],
    ['lamp-hours', 8760.5, '8760.5 h', '8760,5 h'],
    [
      'water-test',
      { ph: 6.4, ironMgL: 0.35, eColi: 'absent' },
      'pH: 6.4, Iron, in mg/L: 0.35, Were E. coli found? no',
      'pH: 6,4, Hierro, en mg/L: 0,35, ¿Se encontró E. coli? no',
    ],
    ['filters-changed', { 'sed-1': '2026-03-01' }, 'sed-1 2026-03-01', 'sed-1 2026-03-01'],
  ] as const)('%s %j', (question, value, inEnglish, inSpanish) => {
    expect(told(question, value, english)).toBe(inEnglish);
    expect(told(question, value, spanish)).toBe(inSpanish);
  });
});
