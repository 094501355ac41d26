import { expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { rulesJudge } from '../../src/server/rules-judge.ts';

const judge = rulesJudge(() => new Date('2026-12-01T12:00:00Z'));
const viewIn = (language: string) =>
  judge.computeView({
    ...{ ruleSet: judge.ruleSets.at(-1) ?? '', language, audience: 'technician' },
    ...{ plant: fernhollow, today: '2026-12-01' },
    answers: [
      { question: 'complaint', value: ['weak'] },
      { question: 'precharge', value: { bar: 1.75 } },
      {
        question: 'readings',
        value: { taps: { open: 1 }, bar: { G1: 3.05, G2: 0.5, G3: 0.45, G4: 0.4 }, flowLpm: 6.5 },
      },
    ],
  });
/** What is said in a view, wherever it stands. */
const textsIn = (view: unknown): string => {
  const texts: string[] = [];
  JSON.stringify(view, (key, value: unknown) => {
    if (typeof value === 'string' && /^(text|why|lookFor)$/.test(key)) texts.push(value);
    return value;
  });
  return texts.join('\n');
};

it('a view tells its texts with the decimal sign of their language, its figures in bar', () => {
  const [english, spanish] = [viewIn('en'), viewIn('es')];
  expect(textsIn(english)).toMatch(/\d\.\d+ bar/);
  expect(textsIn(spanish)).toMatch(/\d,\d+ bar/);
  expect(textsIn(spanish)).not.toMatch(/\d\.\d|[{}]/);
  const figures = (view: unknown) => (view as { segments: unknown[] }).segments;
  expect(figures(spanish)).toHaveLength(3);
  expect(figures(spanish)).toEqual(figures(english));
});
