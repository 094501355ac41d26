import type { Taps } from '../../../shared/case/taps.ts';
import { ONE_TAP } from '../../../shared/diagnosis/answered.ts';
import { houseCurve } from '../../../shared/diagnosis/flow-grid.ts';
import { levelBar } from '../../../shared/diagnosis/gauge-errors.ts';
import type { Judgement } from '../../../shared/diagnosis/judge.ts';
import { outcomesOf } from '../../../shared/diagnosis/predict.ts';
import { predictReadings } from '../../../shared/diagnosis/predict-readings.ts';
import { flowChances } from '../../../shared/diagnosis/unread-state.ts';
import type { Worlds } from '../../../shared/diagnosis/worlds.ts';

/** One possible answer: its value as it would be given, and how likely the engine holds it. */
export interface Branch {
  readonly value: unknown;
  readonly chance: number;
}

export interface Asked {
  readonly question: string;
  readonly ask: { readonly taps: Taps; readonly gauges: readonly string[] } | null;
}

/**
 * What may be answered to the question asked now, by the engine's own predictions. Empty where an answer is a
 * measurement that cannot be foreseen in a few words.
 */
export function branchesOf(asked: Asked, judgement: Judgement, worlds: Worlds): Branch[] {
  const { rules } = judgement;
  const question = rules.questions[asked.question];
  if (!question) return [];
  const taps = asked.ask?.taps ?? null;
  if (question.combine === 'none')
    return question.kind === 'list' ? withoutEvidence(question.answers, judgement) : [];
  if (question.kind === 'readings' && taps) return readings(taps, judgement, worlds);
  if (question.kind === 'flow') return flows(judgement, worlds);
  const chances = outcomesOf({ question: asked.question, taps }, judgement, worlds).map(
    (likelihood) =>
      worlds.list.reduce((sum, { probability }, w) => sum + probability * (likelihood[w] ?? 0), 0),
  );
  const at = (i: number) => chances[i] ?? 0;
  switch (question.kind) {
    case 'list':
      return [
        ...question.answers.map((answer, i) => ({ value: [answer], chance: at(i) })),
        { value: [], chance: at(question.answers.length) },
      ];
    case 'choice':
    case 'tank-level':
      return question.answers.map((value, i) => ({ value, chance: at(i) }));
    case 'pressure-loss':
      return [
        { value: { lostBar: 0, minutes: 10 }, chance: at(0) },
        { value: { lostBar: 1, minutes: 10 }, chance: at(1) },
      ];
    default:
      return [];
  }
}

/** Work done moves the odds, and nothing says how often which: even shares. Else: none of it, and on. */
function withoutEvidence(answers: readonly string[], { rules }: Judgement): Branch[] {
  const moves = answers.filter((answer) =>
    Object.values(rules.causes).some(({ afterWork }) => answer in afterWork),
  );
  if (moves.length === 0) return [{ value: [], chance: 1 }];
  return moves.map((answer) => ({ value: [answer], chance: 1 / moves.length }));
}

/** Readings nearer to each other than this, at every gauge, are one branch of the chart. */
const ALIKE_BAR = 0.4;

function readings(taps: Taps, judgement: Judgement, worlds: Worlds): Branch[] {
  const { model } = judgement;
  const shown = predictReadings(taps, judgement, worlds).map((prediction) => {
    let level = 0;
    return prediction?.mean.map((bar, i) => {
      level = i === 0 ? bar : level - bar;
      const gauge = model.gauges[i];
      // the engine reckons at the pump's height; a gauge shows what is there at its own
      const lift = gauge ? levelBar(gauge, 0, model.curves.datumM) : 0;
      return Math.max(0, Math.round(10 * (level - lift)) / 10);
    });
  });
  const groups: { bars: readonly number[]; chance: number }[] = [];
  const order = worlds.list
    .map(({ probability }, w) => ({ probability, bars: shown[w] }))
    .sort((a, b) => b.probability - a.probability);
  for (const { probability, bars } of order) {
    if (!bars) continue;
    const group = groups.find((each) =>
      each.bars.every((bar, i) => Math.abs(bar - (bars[i] ?? 0)) < ALIKE_BAR),
    );
    if (group) group.chance += probability;
    else groups.push({ bars, chance: probability });
  }
  return groups.map(({ bars, chance }) => ({
    value: {
      taps,
      bar: Object.fromEntries(model.gauges.map(({ id }, i) => [id, bars[i] ?? 0])),
    },
    chance,
  }));
}

/** Up to these shares of a sound plant's flow: hardly any, weak, as it should be. */
const FLOW_BANDS: readonly (readonly [upTo: number, stands: number])[] = [
  [0.35, 0.2],
  [0.75, 0.55],
  [Number.POSITIVE_INFINITY, 1],
];

/** A bucket test, in three bands of the flow that this plant should have. */
function flows({ model }: Judgement, worlds: Worlds): Branch[] {
  const house = houseCurve(model.line, model.curves, ONE_TAP, model.assumed);
  const chancesUnder = (effects: Worlds['list'][number]['effects']) => {
    const chances = flowChances(
      { curves: model.curves, house },
      model.sourceWith(effects),
      effects,
      1.6,
    );
    const total = chances.reduce((a, b) => a + b, 0) || 1;
    return chances.map((chance) => chance / total);
  };
  const clean = chancesUnder([]).reduce(
    (sum, chance, j) => sum + chance * (model.curves.lpm[j] ?? 0),
    0,
  );
  const bands = FLOW_BANDS.map(() => 0);
  for (const { probability, effects, h } of worlds.list) {
    if (h < 0) continue;
    chancesUnder(effects).forEach((chance, j) => {
      const share = (model.curves.lpm[j] ?? 0) / clean;
      const band = FLOW_BANDS.findIndex(([upTo]) => share <= upTo);
      bands[band] = (bands[band] ?? 0) + probability * chance;
    });
  }
  return FLOW_BANDS.map(([, stands], i) => ({
    value: { litres: 10, seconds: Math.max(1, Math.round(600 / (stands * clean))) },
    chance: bands[i] ?? 0,
  }));
}
