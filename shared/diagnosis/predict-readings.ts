import { type Taps, tapsKey } from '../case/taps.ts';
import { houseCurve } from './flow-grid.ts';
import type { Judgement } from './judge.ts';
import type { Prediction } from './predict.ts';
import { heldBy, passesAtRest } from './reducers.ts';
import type { Source } from './source.ts';
import { flowChances } from './unread-state.ts';
import type { World, Worlds } from './worlds.ts';

/** What the gauges would show in a tap state under each world: first level, then drops between neighbours. */
export function predictReadings(
  taps: Taps,
  judgement: Judgement,
  worlds: Worlds,
): (Prediction | null)[] {
  return worlds.list.map((world) => {
    if (world.h < 0) return null;
    return taps === 'closed' ? atRest(judgement, world) : running(taps, judgement, world);
  });
}

function atRest({ model }: Judgement, world: World): Prediction {
  const source = model.sourceWith(world.effects);
  const level = restLevel(source);
  const faulty = world.effects.find((effect) => effect.gauge !== null);
  const shown = model.gauges.map((gauge) =>
    model.curves.reducers
      .filter((reducer) => reducer.at < gauge.at && !passesAtRest(reducer, world.effects))
      .reduce((bar, reducer) => Math.min(bar, heldBy(reducer, world.effects).bar), level.bar),
  );
  const mean = [shown[0] ?? level.bar];
  const sd = [Math.hypot(level.sd, 0.1)];
  model.gauges.slice(1).forEach((gauge, i) => {
    const drop = (shown[i] ?? 0) - (shown[i + 1] ?? 0);
    mean.push(drop);
    // what a reducer takes swings with what stands before it
    const swing = drop > 0 ? level.sd : 0;
    sd.push(
      gauge.id === faulty?.gauge
        ? 6 * gauge.permittedBar
        : Math.hypot(Math.hypot(gauge.offsetBar, gauge.readingBar) * 1.4, swing),
    );
  });
  return { mean, sd };
}

function restLevel(source: Source): { bar: number; sd: number } {
  const top = source.raw[0] ?? 0;
  if (source.gives) return { bar: 0.4, sd: 0.8 };
  if (source.control === 'pressure-switch' && top > source.highBar && !source.neverStops) {
    return {
      bar: (source.lowBar + source.highBar) / 2,
      sd: (source.highBar - source.lowBar) / Math.sqrt(12),
    };
  }
  if (source.control === 'variable-speed') return { bar: Math.min(top, source.highBar), sd: 0.1 };
  return { bar: top, sd: source.sd[0] ?? 0.1 };
}

function running(taps: Exclude<Taps, 'closed'>, judgement: Judgement, world: World): Prediction {
  const { model, measured } = judgement;
  const { curves } = model;
  const source = model.sourceWith(world.effects);
  const house = houseCurve(model.line, curves, taps, model.assumed);
  const state = measured.open.get(tapsKey(taps));
  const weights = state
    ? state.flowWeights(world.effects)
    : flowChances({ curves, house }, source, world.effects, 1.6);
  let at = 0;
  weights.forEach((w, j) => {
    if (w > (weights[at] ?? 0)) at = j;
  });
  const cycles = source.cycling[at] ?? 0;
  const half = (source.highBar - source.lowBar) / Math.sqrt(12);
  const raw = source.raw[at] ?? 0;
  const outlet =
    source.control === 'variable-speed'
      ? Math.min(raw, source.highBar)
      : (cycles * (source.lowBar + source.highBar)) / 2 + (1 - cycles) * raw;
  const mean: number[] = [];
  const sd: number[] = [];
  let from = -1;
  let bar = outlet;
  for (const gauge of model.gauges) {
    const before = bar;
    for (let i = from + 1; i < gauge.at; i++) {
      bar -= 1.3 * (curves.parts[i]?.lossBar[at] ?? 0);
      for (const effect of world.effects) if (effect.at === i) bar -= effect.partLoss?.[at] ?? 0;
      for (const reducer of curves.reducers)
        if (reducer.at === i) bar = Math.min(bar, heldBy(reducer, world.effects).bar);
    }
    const drop = before - bar;
    const read = Math.SQRT2 * Math.hypot(gauge.readingBar, gauge.offsetBar * 0.4);
    mean.push(from < 0 ? outlet - drop : drop);
    sd.push(
      Math.hypot(
        read,
        0.35 * drop,
        from < 0 ? cycles * half + (1 - cycles) * (source.sd[at] ?? 0) : 0,
      ),
    );
    from = gauge.at;
  }
  return { mean, sd };
}
