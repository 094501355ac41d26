import { type Answered, type By, ONE_TAP } from './answered.ts';
import type { Effect } from './effects.ts';
import { houseCurve } from './flow-grid.ts';
import { levelBar } from './gauge-errors.ts';
import {
  closedCycleChance,
  holdChance,
  housingChance,
  prechargeChance,
  shutOffChance,
  tankChance,
} from './measured.ts';
import type { Model } from './model.ts';
import { closedChance } from './pump-behaviour.ts';
import { MEAN_LOADING } from './segment-loss.ts';
import type { Source } from './source.ts';
import { flowChances } from './unread-state.ts';

/** One measurement that is no tap state: its likelihood under a scenario, and under something not listed. */
export interface SingleTest {
  readonly question: string;
  readonly chance: (source: Source, effects: readonly Effect[]) => number;
  readonly unlisted: number;
}

/** The tests answered, each with what something not listed would make of it (about one over its usual answers). */
export function singleTests(model: Model, answered: Answered): SingleTest[] {
  const { plant, gauges, curves } = model;
  const { resting, shutOff, precharge, cycle, housing, tank } = answered;
  const tests: SingleTest[] = [];
  const test = <T>(
    by: By<T> | null,
    unlisted: number,
    chance: (value: T, source: Source, effects: readonly Effect[]) => number,
  ) => {
    if (by)
      tests.push({
        question: by.question,
        unlisted,
        chance: (source, effects) => chance(by.value, source, effects),
      });
  };
  test(resting, 0.33, (value, source) => closedChance(source, value));
  test(tank, 0.25, (value, _, effects) => tankChance(value, effects));
  test(shutOff, 0.15, (value, source) => {
    const gauge = gauges.find((g) => g.id === value.gauge) ?? gauges[0];
    const sd = gauge ? Math.hypot(gauge.offsetBar, gauge.readingBar) : 0.2;
    return shutOffChance(gauge ? levelBar(gauge, value.bar, curves.datumM) : value.bar, sd, source);
  });
  for (const hold of answered.holds) {
    test(hold, 0.25, ({ lostBar, minutes }, source) =>
      holdChance(lostBar, minutes, hold.isolated, source),
    );
  }
  const vessel = plant.line.find((part) => part.kind === 'vessel');
  const assumed = model.assumed.some(
    (a) => a.part === vessel?.id && a.field.startsWith('prechargeBar'),
  );
  test(precharge, 0.2, (value, source, effects) =>
    prechargeChance(value, assumed, source, effects),
  );
  if (cycle?.value.taps === 'closed')
    test(cycle, 0.05, (value, source) => closedCycleChance(value, source));
  if (housing) {
    const flows = housingFlows(model, housing.value.removed);
    test(housing, 0.33, (value, _, effects) => {
      const { before, after, clean } = flows(effects);
      return housingChance(value.result, before, after, clean);
    });
  }
  return tests;
}

/** Flow of one tap with the cartridges in and out, solved under each scenario. */
function housingFlows(model: Model, removed: readonly string[]) {
  const { plant, curves } = model;
  const house = houseCurve(model.line, curves, ONE_TAP, model.assumed);
  const places = new Set(removed.map((id) => plant.line.findIndex((part) => part.id === id)));
  const emptied = {
    ...curves,
    parts: curves.parts.map((part, at) => (places.has(at) ? null : part)),
  };
  const likeliest = (chances: Float64Array) => {
    let at = 0;
    chances.forEach((chance, j) => {
      if (chance > (chances[at] ?? 0)) at = j;
    });
    return Math.max(0.05, curves.lpm[at] ?? 0);
  };
  const clean = likeliest(flowChances({ curves, house }, model.sourceWith([]), [], 1));
  return (effects: readonly Effect[]) => {
    const source = model.sourceWith(effects);
    const left = effects.filter((effect) => !places.has(effect.at) || !effect.partLoss);
    return {
      before: likeliest(flowChances({ curves, house }, source, effects, MEAN_LOADING)),
      after: likeliest(flowChances({ curves: emptied, house }, source, left, MEAN_LOADING)),
      clean,
    };
  };
}
