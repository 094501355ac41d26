import { partsInPlace } from '../case/places.ts';
import { type Taps, tapsKey } from '../case/taps.ts';
import type { Question } from '../ruleset/schema.ts';
import { ONE_TAP } from './answered.ts';
import { houseCurve } from './flow-grid.ts';
import type { Judgement } from './judge.ts';
import { holdChance, tankChance } from './measured.ts';
import { density } from './normal.ts';
import { ageOutcomes } from './predict-ages.ts';
import { predictReadings } from './predict-readings.ts';
import { closedChance, openChance, SAYS_LESS } from './pump-behaviour.ts';
import type { Block } from './sets.ts';
import { NOTHING, type Observation, observationsOf } from './signs.ts';
import { flowChances } from './unread-state.ts';
import type { World, Worlds } from './worlds.ts';

/** Possible answers of a question, in its own order where it lists them: for each, its likelihood under every world. */
export type Outcomes = readonly Float64Array[];

/** What may be asked: a question, for readings in one tap state. */
export interface Ask {
  readonly question: string;
  readonly taps: Taps | null;
}

/** Worlds whose own prediction stands for a possible reading. */
const STANDING_FOR = 16;

export function outcomesOf(ask: Ask, judgement: Judgement, worlds: Worlds): Outcomes {
  const question = judgement.rules.questions[ask.question];
  if (!question) return [];
  if (question.kind === 'dates' || question.kind === 'hours') {
    return ageOutcomes(question.kind, judgement, worlds);
  }
  if (question.combine !== 'solved')
    return tableOutcomes(ask.question, question, judgement, worlds);
  const perWorld = (chance: (world: World) => number, unlisted: number) =>
    Float64Array.from(worlds.list, (world) => (world.h < 0 ? unlisted : chance(world)));
  const source = (world: World) => judgement.model.sourceWith(world.effects);
  if (question.pump === 'running') {
    const { flows, cleanLpm } = openFlows(judgement, worlds);
    const heard = (world: World, answer: string): number => {
      const chances = flows.get(world) ?? new Float64Array();
      return chances.reduce(
        (sum, share, j) =>
          share > 1e-4 ? sum + share * openChance(source(world), j, answer, cleanLpm) : sum,
        0,
      );
    };
    return normalised(
      question.answers.map((answer) =>
        SAYS_LESS.has(answer)
          ? new Float64Array(worlds.list.length)
          : perWorld((world) => heard(world, answer), 1),
      ),
    );
  }
  if (question.pump === 'resting') {
    return normalised(
      question.answers.map((answer) => perWorld((world) => closedChance(source(world), answer), 1)),
    );
  }
  switch (question.kind) {
    case 'tank-level':
      return question.answers.map((answer) =>
        perWorld((world) => tankChance(answer, world.effects), 0.25),
      );
    case 'readings':
      return ask.taps ? continuous(worlds, predictReadings(ask.taps, judgement, worlds)) : [];
    case 'flow': {
      const { flows } = openFlows(judgement, worlds);
      return continuous(
        worlds,
        worlds.list.map((world) => flowPrediction(judgement, flows.get(world))),
      );
    }
    case 'pressure':
      return continuous(
        worlds,
        worlds.list.map((world) =>
          world.h < 0
            ? null
            : {
                mean: [source(world).raw[0] ?? 0],
                sd: [Math.hypot(0.12, source(world).sd[0] ?? 0)],
              },
        ),
      );
    case 'pressure-loss': {
      const isolated = question.isolated === true;
      const holds = perWorld(
        (world) =>
          share(
            holdChance(0, 10, isolated, source(world)),
            holdChance(1, 10, isolated, source(world)),
          ),
        0.5,
      );
      return [holds, holds.map((chance) => 1 - chance)];
    }
    case 'precharge': {
      const water = perWorld((world) => (source(world).waterlogged ? 0.9 : 0.01), 0.2);
      const charges = continuous(
        worlds,
        worlds.list.map((world) =>
          world.h < 0
            ? null
            : {
                // torn rubber holds no charge
                mean: [source(world).waterlogged ? 0 : (source(world).prechargeBar ?? 0)],
                sd: [0.25],
              },
        ),
      );
      return [water, ...charges.map((charge) => charge.map((c, w) => c * (1 - (water[w] ?? 0))))];
    }
    case 'cycle-times':
      return continuous(
        worlds,
        worlds.list.map((world) =>
          world.h < 0 ? null : { mean: [Math.log(source(world).drawdownL)], sd: [0.4] },
        ),
      );
    case 'vacuum':
      return continuous(
        worlds,
        worlds.list.map((world) =>
          world.h < 0 ? null : { mean: [-source(world).suctionLossM * 0.05], sd: [0.08] },
        ),
      );
    case 'housing':
      return housingOutcomes(question, judgement, worlds);
    default:
      return [];
  }
}

const share = (a: number, b: number) => a / (a + b);

/** Tables: one outcome per answer; a list's items one at a time, each said or not. */
function tableOutcomes(
  id: string,
  question: Question,
  judgement: Judgement,
  worlds: Worlds,
): Outcomes {
  const hydraulic: Block = { causes: judgement.hydraulic.causes, sets: worlds.hSets };
  const quality: Block = { causes: judgement.quality.causes, sets: worlds.qSets };
  const context = { ...judgement.signContext, hydraulic, quality };
  const column = (observations: readonly Observation[]) =>
    Float64Array.from(worlds.list, (world) =>
      observations.reduce((product, o) => product * valueAt(o, world, quality.sets.length), 1),
    );
  if (question.combine === 'none') return [];
  if (question.kind === 'list' || question.kind === 'water-test') {
    const items = question.answers.map((answer) =>
      column(observationsOf(id, [answer], context).filter((o) => o.answer === answer)),
    );
    const none = column(observationsOf(id, [], context));
    return normalised([...items, none]);
  }
  return normalised(question.answers.map((answer) => column(observationsOf(id, answer, context))));
}

function valueAt(o: Observation, world: World, columns: number): number {
  if (world.h < 0) return o.unlisted;
  if (world.causes[0] === NOTHING) return o.nothing;
  return (
    (o.h?.[world.h] ?? 1) * (o.q?.[world.q] ?? 1) * (o.joint?.[world.h * columns + world.q] ?? 1)
  );
}

/** Answers exclude each other: per world they sum to one. */
function normalised(outcomes: readonly Float64Array[]): Outcomes {
  const count = outcomes[0]?.length ?? 0;
  for (let w = 0; w < count; w++) {
    const total = outcomes.reduce((sum, o) => sum + (o[w] ?? 0), 0);
    if (total > 0) for (const o of outcomes) o[w] = (o[w] ?? 0) / total;
  }
  return outcomes;
}

export interface Prediction {
  readonly mean: readonly number[];
  readonly sd: readonly number[];
}

/**
 * A reading may come out anywhere: the likeliest worlds' own predictions stand for the answers. Each column is scaled so
 * that a world's likelihoods over all outcomes sum to one.
 */
function continuous(worlds: Worlds, predictions: readonly (Prediction | null)[]): Outcomes {
  const standing = worlds.list
    .map((world, w) => ({ w, probability: world.probability }))
    .filter(({ w }) => predictions[w])
    .sort((a, b) => b.probability - a.probability)
    .slice(0, STANDING_FOR);
  const outcomes = standing.map(({ w, probability }) => {
    const at = predictions[w];
    return Float64Array.from(predictions, (prediction) => {
      if (!at) return 0;
      if (!prediction) return 0.05 * probability;
      let chance = probability;
      at.mean.forEach((x, i) => {
        const sd = Math.hypot(prediction.sd[i] ?? 1, 1e-3);
        chance *= density(x, prediction.mean[i] ?? 0, sd) * sd + 1e-3;
      });
      return chance;
    });
  });
  return normalised(outcomes);
}

/** Chance of each flow with one ordinary tap open, per world; readings already taken in that state are counted. */
function openFlows(judgement: Judgement, worlds: Worlds) {
  const { model, measured } = judgement;
  const house = houseCurve(model.line, model.curves, ONE_TAP, model.assumed);
  const state = measured.open.get(tapsKey(ONE_TAP));
  const flows = new Map<World, Float64Array>();
  for (const world of worlds.list) {
    if (world.h < 0) continue;
    const weights = state
      ? state.flowWeights(world.effects)
      : flowChances(
          { curves: model.curves, house },
          model.sourceWith(world.effects),
          world.effects,
          1.6,
        );
    const total = weights.reduce((sum, w) => sum + w, 0);
    flows.set(world, total > 0 ? weights.map((w) => w / total) : weights);
  }
  const clean = flowChances({ curves: model.curves, house }, model.sourceWith([]), [], 1);
  const cleanLpm = Math.max(
    1,
    clean.reduce((sum, chance, j) => sum + chance * (model.curves.lpm[j] ?? 0), 0),
  );
  return { flows, cleanLpm };
}

function flowPrediction(
  { model }: Judgement,
  chances: Float64Array | undefined,
): Prediction | null {
  if (!chances) return null;
  const ln = (j: number) => Math.log((model.curves.lpm[j] ?? 0) + 0.05);
  const mean = chances.reduce((sum, chance, j) => sum + chance * ln(j), 0);
  const variance = chances.reduce((sum, chance, j) => sum + chance * (ln(j) - mean) ** 2, 0);
  return { mean: [mean], sd: [Math.sqrt(variance + 0.07 ** 2)] };
}

/** The cartridges that the question takes out: flow restored, or the same. */
function housingOutcomes(
  { empties = [] }: Question,
  { facts: { plant } }: Judgement,
  worlds: Worlds,
): Outcomes {
  const removed = empties.map((place) => partsInPlace(place, plant)).find((ids) => ids.length > 0);
  const emptied = new Set(removed?.map((id) => plant.line.findIndex((part) => part.id === id)));
  const chance = (world: World, result: 'restored' | 'same') => {
    if (world.h < 0) return 0.5;
    const restricting = world.effects.filter((e) => e.partLoss);
    const isThere = restricting.some((e) => emptied.has(e.at));
    return isThere === (result === 'restored') ? 0.9 : 0.1;
  };
  return (['restored', 'same'] as const).map((result) =>
    Float64Array.from(worlds.list, (world) => chance(world, result)),
  );
}
