import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { siUnits, type Units } from '../../shared/ruleset/figures.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet, words } = latestRuleSet();
const stages = readyMade.find(({ id }) => id === 'two-stages')?.plant;

/** A blocked stage; one gauge's dial ends under the pump's pressure, one reads more than the one before it. */
const given = {
  plant: {
    ...stages,
    line: stages?.line.map((part) => (part.id === 'G1' ? { ...part, rangeBar: 2.5 } : part)),
  },
  answers: [
    { question: 'complaint', value: ['weak'] },
    { question: 'flow', value: { litres: 10, seconds: 61.5, taps: { open: 1 } } },
    { question: 'pressure-hold', value: { lostBar: 0.4, minutes: 10 } },
    { question: 'readings', value: { taps: 'closed', bar: { G1: 2.4, G2: 2.4, G3: 2.4 } } },
    {
      question: 'readings',
      value: { taps: { open: 1 }, bar: { G1: 2.2, G2: 0.6, G3: 0.9 }, flowLpm: 5 },
    },
  ],
};
const textsOf = (language: string, units?: Units): string => {
  const spoken = words[language];
  if (!spoken) throw new Error(language);
  const result = diagnose(given, ruleSet, spoken, '2026-12-01', units);
  const reasons = result.causes.flatMap((cause) => cause.reasons.map(({ text }) => text));
  return [...reasons, ...result.warnings.map(({ text }) => text)].join('\n');
};

describe('figures inside the texts of a result follow the reader', () => {
  it('in bar with a point when nobody says otherwise, as files hold them', () => {
    const text = textsOf('en');
    expect(text).toContain('1.60 bar is lost at about 5 L/min');
    expect(text).toContain('G1 ends at 2.5 bar');
    expect(text).toMatch(/10 L, 61\.5 s, one tap/);
    expect(text).not.toContain('[object');
  });

  it.each([
    // 1.6 bar, 0.3 bar and 2.5 bar by the factors of NIST SP 811
    ['psi', '23.2 psi', '4.4 psi', '36.3 psi'],
    ['kPa', '160 kPa', '30 kPa', '250 kPa'],
  ] as const)('in %s', (pressure, drop, rise, range) => {
    const text = textsOf('en', { ...siUnits, pressure });
    expect(text).toContain(`${drop} is lost at about 5 L/min`);
    expect(text).toContain(`G3 reads ${rise} above G2`);
    expect(text).toContain(`G1 ends at ${range}`);
    expect(text).not.toMatch(/\d bar/);
  });

  it('in gallons', () => {
    // 5 L/min is 1.3 US and 1.1 imperial gallons a minute
    expect(textsOf('en', { ...siUnits, volume: 'US gal' })).toContain('about 1.3 US gpm');
    expect(textsOf('en', { ...siUnits, volume: 'imp gal' })).toContain('about 1.1 imp gpm');
  });

  it('with the decimal sign of the language', () => {
    const text = textsOf('es', { ...siUnits, language: 'es' });
    expect(text).toContain('se pierden 1,60 bar a unos 5 L/min');
    expect(text).toContain('llega hasta 2,5 bar');
    expect(text).toContain('61,5 s');
    expect(text).not.toMatch(/\d\.\d/);
  });
});
