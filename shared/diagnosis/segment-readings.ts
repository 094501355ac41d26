import { type Taps, tapsKey } from '../case/taps.ts';
import { COVERAGE } from '../hydraulics/gauge.ts';
import { lossBetweenPa } from '../hydraulics/line/losses.ts';
import { lpmToM3s, paToBar } from '../hydraulics/units.ts';
import { type LevelReading, levelReadings, offsetsOf } from './gauge-errors.ts';
import type { Judgement } from './judge.ts';
import type { SegmentReading } from './result.ts';
import { reducersBetween } from './segment-loss.ts';
import type { Worlds } from './worlds.ts';

/** Every pressure drop that was read with water running: between neighbouring gauges, with its error and times clean. */
export function segmentReadings(judgement: Judgement, worlds: Worlds): SegmentReading[] {
  const { facts, model } = judgement;
  const { gauges, curves } = model;
  const offsets = offsetsOf(facts, gauges, curves.datumM);
  const segments: SegmentReading[] = [];
  for (const [key, readings] of [...facts.readings].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (readings.taps === 'closed') continue;
    const level = levelReadings(readings, gauges, offsets, curves.datumM);
    const flowLpm =
      readings.flowLpm ??
      (readings.taps === 'part-open' ? null : likelyFlow(judgement, worlds, key));
    level.slice(1).forEach((to, i) => {
      const from = level[i];
      if (!from) return;
      const between = facts.plant.line.slice(from.gauge.at + 1, to.gauge.at);
      // read before the work, it tells nothing of the part as it is now
      if (between.some(({ id }) => readings.staleParts.includes(id))) return;
      const dropBar = from.bar - to.bar;
      const uncertaintyBar = COVERAGE * Math.hypot(from.ownBar, to.ownBar);
      segments.push({
        from: from.gauge.id,
        to: to.gauge.id,
        parts: between.map((part) => part.id),
        taps: readings.taps,
        dropBar: round(dropBar, 3),
        uncertaintyBar: round(uncertaintyBar, 3),
        tooSmall: Math.abs(dropBar) < uncertaintyBar,
        flowLpm: flowLpm === null ? null : round(flowLpm, 1),
        timesClean: flowLpm === null ? null : timesClean(judgement, from, to, flowLpm, dropBar),
        measured: true,
      });
    });
  }
  return segments;
}

const round = (value: number, digits: number) => Number(value.toFixed(digits));

function timesClean(
  { model }: Judgement,
  from: LevelReading,
  to: LevelReading,
  flowLpm: number,
  dropBar: number,
): number | null {
  // what a reducer takes is no resistance
  const between = reducersBetween(model.curves, from.gauge.at, to.gauge.at);
  if (between.some(({ setBar }) => setBar < from.bar)) return null;
  const clean = cleanDropBar(model, from.gauge.at, to.gauge.at, flowLpm, from.bar);
  return clean > 1e-6 ? round(Math.max(0, dropBar / clean), 1) : null;
}

/** What stands at a gauge in a tap state it was read in, at the curves' datum, bar. */
export function standingAt({ facts, model }: Judgement, taps: Taps, gauge: string): number {
  const { gauges, curves } = model;
  const readings = facts.readings.get(tapsKey(taps));
  if (!readings) return 0;
  const offsets = offsetsOf(facts, gauges, curves.datumM);
  const level = levelReadings(readings, gauges, offsets, curves.datumM);
  return level.find((one) => one.gauge.id === gauge)?.bar ?? 0;
}

/** What a clean plant loses between two places of its line at a flow, heights left out and `fromBar` standing before it, bar. */
export function cleanDropBar(
  model: Judgement['model'],
  from: number,
  to: number,
  flowLpm: number,
  fromBar: number,
): number {
  const [reducer] = reducersBetween(model.curves, from, to).sort((a, b) => a.setBar - b.setBar);
  if (reducer) {
    const before = cleanDropBar(model, from, reducer.at, flowLpm, fromBar);
    const after = cleanDropBar(model, reducer.at, to, flowLpm, reducer.setBar);
    return Math.max(before, fromBar - reducer.setBar) + after;
  }
  const inside = new Set(model.plant.line.slice(from + 1, to).map((part) => part.id));
  const first = model.line.elements.findIndex((element) => inside.has(element.id));
  const count = model.line.elements.filter((element) => inside.has(element.id)).length;
  return first < 0
    ? 0
    : paToBar(lossBetweenPa(model.line, first, first + count, lpmToM3s(flowLpm)));
}

/** Flow not measured: the mean over the likeliest worlds, each given the readings. Null where the taps say too little. */
function likelyFlow({ measured, model }: Judgement, worlds: Worlds, key: string): number | null {
  const state = measured.open.get(key);
  if (!state) return null;
  let flow = 0;
  let known = 0;
  for (const world of worlds.list) {
    if (world.h < 0) continue;
    const weights = state.flowWeights(world.effects);
    const total = weights.reduce((sum, w) => sum + w, 0);
    if (total <= 0) continue;
    flow +=
      world.probability *
      weights.reduce((sum, w, j) => sum + (w / total) * (model.curves.lpm[j] ?? 0), 0);
    known += world.probability;
  }
  return known > 0 ? flow / known : null;
}
