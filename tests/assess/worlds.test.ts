import { describe, expect, it } from 'vitest';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm, paToBar } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { soundCondition } from '../../src/assess/condition.ts';
import { perturbed } from '../../src/assess/perturb.ts';
import { drawPlant } from '../../src/assess/plants.ts';
import { answer } from '../../src/assess/player.ts';
import { randomOf } from '../../src/assess/random.ts';
import { readGauges } from '../../src/assess/readings.ts';
import { tablesFor, worldOf } from '../../src/assess/world.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const { ruleSet } = latestRuleSet();
const wanted = { seed: 7, sampling: 'rates', gauges: null } as const;
const logit = (p: number) => Math.log(p / (1 - p));

describe('virtual worlds', () => {
  it('are the same for the same seed and others for another', () => {
    const text = (seed: number) => JSON.stringify(worldOf(ruleSet, { ...wanted, seed }, 3).plant);
    expect(text(7)).toBe(text(7));
    expect(text(7)).not.toBe(text(8));
  });

  it('have the number of gauges asked for, as far as there are places for them', () => {
    for (const gauges of [0, 1, 2]) {
      const { plant } = worldOf(ruleSet, { ...wanted, gauges }, 11);
      expect(plant.line.filter((p) => p.kind === 'gauge')).toHaveLength(gauges);
    }
  });

  it('are plants that the reader of plant files accepts, as they are and as told', () => {
    const random = randomOf(1, 2);
    for (let i = 0; i < 200; i++) {
      const { truth, told } = drawPlant(random, i % 5);
      expect(() => parsePlant(truth)).not.toThrow();
      expect(() => parsePlant(told)).not.toThrow();
    }
  });

  it('move every chance by 0.5 in log-odds and every rate by 0.5 in its logarithm', () => {
    const moved: number[] = [];
    const rates: number[] = [];
    for (let region = 0; region < 5; region++) {
      const own = perturbed(ruleSet, randomOf(5, region));
      for (const [id, question] of Object.entries(ruleSet.questions)) {
        for (const [cause, signs] of Object.entries(question.table)) {
          for (const [answerId, word] of Object.entries(signs)) {
            const to = own.questions[id]?.table[cause]?.[answerId];
            if (to)
              moved.push(logit(own.head.frequencies[to]) - logit(ruleSet.head.frequencies[word]));
          }
        }
      }
      for (const [id, cause] of Object.entries(ruleSet.causes))
        rates.push(Math.log((own.causes[id]?.ratePerYear ?? 0) / cause.ratePerYear));
    }
    const sd = (xs: number[]) => Math.sqrt(xs.reduce((s, x) => s + x * x, 0) / xs.length);
    expect(sd(moved)).toBeGreaterThan(0.47);
    expect(sd(moved)).toBeLessThan(0.53);
    expect(sd(rates)).toBeGreaterThan(0.42);
    expect(sd(rates)).toBeLessThan(0.58);
  });

  it('share tables within a region only', () => {
    expect(tablesFor(ruleSet, 7, 0)).toBe(tablesFor(ruleSet, 7, 1));
    expect(tablesFor(ruleSet, 7, 0)).not.toBe(tablesFor(ruleSet, 7, 900));
  });

  it('bring somebody to ask: no complaint is empty', () => {
    for (let i = 0; i < 60; i++) expect(worldOf(ruleSet, wanted, i).complaint).not.toEqual([]);
  });
});

describe('players', () => {
  it('read gauges of a sound plant to half a division and within their class and a slip', () => {
    const random = randomOf(3);
    for (let i = 0; i < 40; i++) {
      const world = { ...worldOf(ruleSet, { ...wanted, gauges: 2 }, i) };
      const condition = soundCondition(world.plant, random);
      const { bar } = readGauges({ ...world, condition }, { open: 1 }, ['G1', 'G2'], random) as {
        bar: Record<string, number>;
      };
      const solved = solveLine(condition.line, { open: 1 });
      for (const part of world.plant.line) {
        if (part.kind !== 'gauge') continue;
        const { rangeBar = 10, classPercent = 2.5, divisionBar = 0.2 } = part;
        const shown = bar[part.id] ?? Number.NaN;
        expect(shown / (divisionBar / 2)).toBeCloseTo(Math.round(shown / (divisionBar / 2)), 6);
        if (solved.running !== 'steady') continue;
        const true_ = paToBar(solved.points.find((p) => p.after === part.id)?.pa ?? 0);
        expect(Math.abs(shown - true_)).toBeLessThan(
          0.012 * classPercent * rangeBar + divisionBar / 4 + 0.51,
        );
      }
    }
  });

  it('leave about six answers in a hundred open', () => {
    let unknown = 0;
    for (let i = 0; i < 400; i++) {
      const world = worldOf(ruleSet, wanted, i);
      if (answer(world, { question: 'smell', ask: null }, 'technician') === 'unknown') unknown++;
    }
    expect(unknown / 400).toBeGreaterThan(0.03);
    expect(unknown / 400).toBeLessThan(0.1);
  });

  it('measure by bucket what the line passes', () => {
    for (let i = 0; i < 60; i++) {
      const world = worldOf(ruleSet, wanted, i);
      const condition = soundCondition(world.plant, randomOf(i));
      const flow = answer(
        { ...world, condition, weakTap: false, random: randomOf(4, i) },
        { question: 'flow', ask: null },
        'technician',
      );
      if (flow === 'unknown') continue;
      const { litres, seconds } = flow as { litres: number; seconds: number };
      const lpm = m3sToLpm(solveLine(condition.line, { open: 1 }).flowM3s);
      const ratio = (60 * litres) / seconds / lpm;
      // A wrong answer is off by a factor of two.
      expect(Math.min(...[1, 0.5, 2].map((f) => Math.abs(ratio / f - 1)))).toBeLessThan(0.2);
    }
  });

  it('see less flow than clean where a cartridge is blocked', () => {
    const clean = (world: ReturnType<typeof worldOf>) =>
      solveLine(lineOf(resolvePlant(world.plant).plant), { open: 1 }).flowM3s;
    let seen = 0;
    for (let i = 0; i < 200 && seen < 10; i++) {
      const world = worldOf(ruleSet, wanted, i);
      if (!world.faults.sought.some((f) => f.cause === 'sediment-blocked')) continue;
      seen++;
      expect(solveLine(world.condition.line, { open: 1 }).flowM3s).toBeLessThan(1.3 * clean(world));
    }
    expect(seen).toBeGreaterThan(3);
  });
});
