import { factsOf } from '../../shared/case/facts.ts';
import type { Taps } from '../../shared/case/taps.ts';
import { ONE_TAP } from '../../shared/diagnosis/answered.ts';
import { type Judgement, judge } from '../../shared/diagnosis/judge.ts';
import { type Ask, type Outcomes, outcomesOf } from '../../shared/diagnosis/predict.ts';
import { NOTHING } from '../../shared/diagnosis/signs.ts';
import type { World } from '../../shared/diagnosis/worlds.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';

/** One cause alone, at one severity in one place, as the engine would reckon with it. */
export interface Single {
  readonly cause: string;
  /** its share among the places and severities of this cause */
  readonly weight: number;
  readonly world: World;
}

/** Every cause of a rule set by itself on one plant, nothing answered yet; and the plant with nothing wrong. */
export interface Singles {
  readonly judgement: Judgement;
  readonly list: readonly Single[];
  readonly nothing: World;
  /** how likely each answer of a question is under each of these worlds */
  readonly outcomes: (ask: Ask, worlds: readonly World[]) => Outcomes;
}

export function singleCauses(plant: Plant, rules: RuleSet): Singles {
  const day = rules.head.version;
  const judgement = judge(factsOf(plant, [], rules, { given: day, system: day }), rules);
  const { hydraulic, quality, candidates } = judgement;
  const hSets = [[], ...hydraulic.causes.map((_, i) => [i])];
  const qSets = [[], ...quality.causes.map((_, i) => [i])];
  const places = (cause: number) => candidates.filter((each) => each.cause === cause).length;
  const list = [
    ...candidates.flatMap(({ cause, effects }) =>
      effects.map((effect): Single => {
        const id = hydraulic.causes[cause] ?? '';
        const world = { causes: [id], probability: 1, h: cause + 1, q: 0, effects: [effect] };
        return { cause: id, weight: effect.weight / places(cause), world };
      }),
    ),
    ...quality.causes.map((id, i): Single => {
      const world = { causes: [id], probability: 1, h: 0, q: i + 1, effects: [] };
      return { cause: id, weight: 1, world };
    }),
  ];
  return {
    judgement,
    list,
    nothing: { causes: [NOTHING], probability: 1, h: 0, q: 0, effects: [] },
    outcomes: (ask, worlds) => outcomesOf(ask, judgement, { list: worlds, hSets, qSets }),
  };
}

/** What can be asked of a plant, readings with all taps shut and with one open. Conditions of asking are left aside. */
export function asksOf(rules: RuleSet): Ask[] {
  return Object.entries(rules.questions).flatMap(([question, { kind, combine }]): Ask[] => {
    if (combine === 'none') return [];
    if (kind !== 'readings') return [{ question, taps: null }];
    return [
      { question, taps: 'closed' },
      { question, taps: ONE_TAP as Taps },
    ];
  });
}

/** How far two worlds' answers to a question lie apart: half the sum of differences (total variation), 0 to 1. */
export function apart(outcomes: Outcomes, a: number, b: number): number {
  return (
    outcomes.reduce((sum, chance) => sum + Math.abs((chance[a] ?? 0) - (chance[b] ?? 0)), 0) / 2
  );
}
