import { describe, expect, it } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { fieldsOf } from '../../web/setup/part-fields.ts';

const { ruleSet: rules, words } = latestRuleSet();
const day = '2026-11-25';
const gravity = readyMade.find(({ id }) => id === 'gravity')?.plant as Plant;

const withTank = (fields: object): Plant => ({
  ...gravity,
  line: gravity.line.map((part) => (part.kind === 'tank' ? { ...part, ...fields } : part)),
});

/** What the gauge of a sound plant shows whose tank stands so high, by solving the line. */
const shown = (outletHeightM: number, open: number): number => {
  const { plant } = resolvePlant(withTank({ outletHeightM }));
  const { points } = solveLine(lineOf(plant), open === 0 ? 'closed' : { open });
  return Math.round(paToBar(points.find(({ after }) => after === 'G1')?.pa ?? 0) * 20) / 20;
};

const read = (outletHeightM: number) => [
  { question: 'readings', value: { taps: 'closed', bar: { G1: shown(outletHeightM, 0) } } },
  { question: 'readings', value: { taps: { open: 1 }, bar: { G1: shown(outletHeightM, 1) } } },
];

const answers = (outletHeightM: number) => [
  { question: 'danger', value: [] },
  { question: 'complaint', value: ['look'] },
  { question: 'onset', value: 'after-rain' },
  { question: 'look', value: 'brown' },
  ...read(outletHeightM),
];
const tankOf = (plant: Plant) => plant.line.find(({ kind }) => kind === 'tank');

describe('a tank on a hill of unknown height', () => {
  it.each([6, 8, 18, 30])('is as high as the gauge at rest says: %d m', (heightM) => {
    const facts = factsOf(gravity, read(heightM), rules, { system: day });
    const tank = tankOf(facts.plant);
    expect(tank?.kind === 'tank' && tank.outletHeightM).toBeCloseTo(heightM, 0);
  });

  it.each([6, 8, 30])('doubts no sound gauge where the tank stands %d m up', (heightM) => {
    const { causes } = diagnose(
      { plant: gravity, answers: answers(heightM) },
      rules,
      words.en!,
      day,
    );
    expect(causes[0]?.id).toBe('roof-runoff');
    const chance = (id: string) => causes.find((cause) => cause.id === id)?.probability ?? 0;
    expect(chance('gauge-faulty')).toBeLessThan(0.1);
    expect(chance('not-listed')).toBeLessThan(0.1);
  });

  it('is read before a pressure reducer: behind it a gauge shows what that holds', () => {
    const reducer = { id: 'reducer', kind: 'pressure-reducer' as const, setBar: 2.5 };
    const gauge = (id: string) => ({ id, kind: 'gauge' as const, rangeBar: 6 });
    const at = gravity.line.findIndex(({ kind }) => kind === 'gauge');
    const line = [...gravity.line];
    line.splice(at, 1, gauge('G1'), reducer, gauge('G2'), gauge('G3'));
    const bar = (G1: number, G2: number, G3: number) => ({ taps: 'closed', bar: { G1, G2, G3 } });
    const heightOf = (value: unknown) => {
      const facts = factsOf({ ...gravity, line }, [{ question: 'readings', value }], rules, {
        system: day,
      });
      const tank = tankOf(facts.plant);
      return tank?.kind === 'tank' ? tank.outletHeightM : undefined;
    };
    expect(heightOf(bar(3.6, 2.5, 2.5))).toBeCloseTo(heightOf(bar(3.6, 3.6, 3.6))!, 6);
    // only gauges behind it were read: the height stays open
    expect(heightOf({ taps: 'closed', bar: { G1: 'unknown', G2: 2.5, G3: 2.5 } })).toBeUndefined();
  });

  it('leaves a height that was said as it was said', () => {
    const facts = factsOf(withTank({ outletHeightM: 18 }), read(8), rules, { system: day });
    expect(tankOf(facts.plant)).toMatchObject({ outletHeightM: 18 });
  });

  it('lists the height among what was taken for granted, and lets it be said', () => {
    expect(resolvePlant(gravity).assumed).toContainEqual({
      ...{ part: 'tank', field: 'outletHeightM', value: 18 },
    });
    const paths = fieldsOf(tankOf(gravity)!).map(({ path }) => path);
    expect(paths).toEqual(expect.arrayContaining(['uphill', 'outletHeightM']));
  });
});
