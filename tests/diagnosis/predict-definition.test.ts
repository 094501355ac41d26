import { describe, expect, it } from 'vitest';
import { partsInPlace } from '../../shared/case/places.ts';
import type { Taps } from '../../shared/case/taps.ts';
import { houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import { density } from '../../shared/diagnosis/normal.ts';
import { outcomesOf, type Prediction } from '../../shared/diagnosis/predict.ts';
import { predictReadings } from '../../shared/diagnosis/predict-readings.ts';
import { NOTHING, observationsOf } from '../../shared/diagnosis/signs.ts';
import { ageOdds } from '../../shared/diagnosis/suspects.ts';
import { flowChances } from '../../shared/diagnosis/unread-state.ts';
import type { World, Worlds } from '../../shared/diagnosis/worlds.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';
import { ruleSet } from './rules.ts';

/** Chances of answers under each world, worked out here from the world's own line and from the whole tables. */
const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
const read: Answers = [
  ...weak,
  { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 2.9, G2: 1.2 } } },
];
const withUv = {
  ...twoGauges,
  line: twoGauges.line.toSpliced(
    6,
    0,
    { id: 'uv', kind: 'uv' } as never,
    { id: 'carbon', kind: 'filter', medium: 'carbon' } as never,
    { id: 'G3', kind: 'gauge' },
  ),
};
const control = { kind: 'variable-speed', setBar: 2.2 };
const held = {
  ...twoGauges,
  line: twoGauges.line.map((part) => (part.kind === 'pump' ? { ...part, control } : part)),
};
const cases: [string, unknown, Answers][] = [
  ['two gauges, weak', twoGauges, weak],
  ['two gauges, read', twoGauges, read],
  ['three gauges', withUv, weak],
  ['a held pressure', held, weak],
  ...readyMade.slice(0, 2).map(({ id, plant }): [string, unknown, Answers] => [id, plant, weak]),
];
type Made = { judgement: Judgement; worlds: Worlds };
const asked = (id: string, { judgement, worlds }: Made, taps: Taps | null = null) =>
  outcomesOf({ question: id, taps }, judgement, worlds);
const idsOf = (...kinds: string[]) =>
  Object.entries(ruleSet.questions).flatMap(([id, q]) =>
    kinds.includes(q.kind) && q.combine !== 'none' ? [id] : [],
  );
const scaled = (rows: number[][]): number[][] =>
  rows.map((row) =>
    row.map((value, w) => value / rows.reduce((sum, other) => sum + (other[w] ?? 0), 0)),
  );
function same(ours: readonly Float64Array[], theirs: number[][], name: string) {
  expect(ours, name).toHaveLength(theirs.length);
  ours.forEach((row, a) => {
    row.forEach((chance, w) => {
      expect(chance, `${name} ${a} ${w}`).toBeCloseTo(theirs[a]?.[w] ?? Number.NaN, 9);
    });
  });
}

/** The sixteen likeliest worlds' own figures stand for what may be measured. */
function standing({ list }: Worlds, predictions: (Prediction | null)[]): number[][] {
  const worlds = [...list.keys()]
    .filter((w) => predictions[w])
    .sort((a, b) => (list[b]?.probability ?? 0) - (list[a]?.probability ?? 0))
    .slice(0, 16);
  const rows = worlds.map((s) => {
    const { mean } = predictions[s] as Prediction;
    const p = list[s]?.probability ?? 0;
    return predictions.map((own) =>
      own
        ? mean.reduce((so, x, i) => {
            const sd = Math.hypot(own.sd[i] ?? 1, 1e-3);
            return so * (density(x, own.mean[i] ?? 0, sd) * sd + 1e-3);
          }, p)
        : 0.05 * p,
    );
  });
  return scaled(rows);
}

const openWeights = (
  { model, measured }: Judgement,
  { effects }: World,
  taps: { open: number },
) => {
  const house = houseCurve(model.line, model.curves, taps, model.assumed);
  const state = measured.open.get(`open ${taps.open}`);
  return state
    ? state.flowWeights(effects)
    : flowChances({ curves: model.curves, house }, model.sourceWith(effects), effects, 1.6);
};

/** A world for each fault this plant can have, and for some two of them together. */
function everyFault({ candidates }: Judgement): Worlds {
  const ones = candidates.flatMap(({ coarse }) => coarse);
  const sets = [[], ...ones.map((e) => [e]), ...ones.slice(1).map((e, i) => [ones[i] ?? e, e])];
  const list = sets.map((effects) => ({ causes: ['x'], probability: 1, h: 0, q: 0, effects }));
  return { list, hSets: [[]], qSets: [[]] };
}

describe.each(cases)('%s', (_, plant, answers) => {
  const made = judged(plant, answers);
  const { judgement, worlds } = made;
  const { model } = judgement;
  const perWorld = (of: (world: World) => Prediction | null) =>
    standing(
      worlds,
      worlds.list.map((world) => (world.h < 0 ? null : of(world))),
    );
  const source = ({ effects }: World) => model.sourceWith(effects);

  it('a measurement comes out near what one of the likeliest worlds expects', () => {
    for (const id of idsOf('pressure'))
      same(
        asked(id, made),
        perWorld((world) => ({
          mean: [source(world).raw[0] ?? 0],
          sd: [Math.hypot(0.12, source(world).sd[0] ?? 0)],
        })),
        id,
      );
    for (const id of idsOf('cycle-times'))
      same(
        asked(id, made),
        perWorld((world) => ({ mean: [Math.log(source(world).drawdownL)], sd: [0.4] })),
        id,
      );
    for (const id of idsOf('vacuum'))
      same(
        asked(id, made),
        perWorld((world) => ({ mean: [-0.05 * source(world).suctionLossM], sd: [0.08] })),
        id,
      );
    for (const id of idsOf('flow'))
      same(
        asked(id, made),
        perWorld((world) => {
          const weights = [...openWeights(judgement, world, { open: 1 })];
          const total = weights.reduce((sum, w) => sum + w, 0);
          const ln = [...model.curves.lpm].map((q) => Math.log(q + 0.05));
          const mean = weights.reduce((sum, w, j) => sum + (w / total) * (ln[j] ?? 0), 0);
          const variance = weights.reduce(
            (sum, w, j) => sum + (w / total) * ((ln[j] ?? 0) - mean) ** 2,
            0,
          );
          return { mean: [mean], sd: [Math.hypot(Math.sqrt(variance), 0.07)] };
        }),
        id,
      );
  });

  it('a vessel’s charge is read near its own, unless water comes', () => {
    for (const id of idsOf('precharge')) {
      const [water, ...charges] = asked(id, made);
      const expected = perWorld((world) => ({
        mean: [source(world).waterlogged ? 0 : (source(world).prechargeBar ?? 0)],
        sd: [0.25],
      }));
      same(
        charges,
        expected.map((row) => row.map((chance, w) => chance * (1 - (water?.[w] ?? 0)))),
        id,
      );
    }
  });

  it.each<[Taps]>([['closed'], [{ open: 1 }]])(
    'gauges read with taps %j show what each world expects',
    (taps) => {
      for (const id of idsOf('readings'))
        same(asked(id, made, taps), standing(worlds, predictReadings(taps, judgement, worlds)), id);
      expect(asked(idsOf('readings')[0] ?? '', made)).toEqual([]);
    },
  );

  it('with a tap open they show the outlet’s pressure less what stands between', () => {
    const every = everyFault(judgement);
    const shown = predictReadings({ open: 1 }, judgement, every);
    every.list.forEach((world, w) => {
      const weights = [...openWeights(judgement, world, { open: 1 })];
      const at = weights.indexOf(Math.max(...weights));
      const { raw, sd, cycling, control, lowBar, highBar } = source(world);
      const [own, cycles] = [raw[at] ?? 0, cycling[at] ?? 0];
      const outlet =
        control === 'variable-speed'
          ? Math.min(own, highBar)
          : (cycles * (lowBar + highBar)) / 2 + (1 - cycles) * own;
      const level = (cycles * (highBar - lowBar)) / Math.sqrt(12) + (1 - cycles) * (sd[at] ?? 0);
      model.gauges.forEach((gauge, i) => {
        const from = model.gauges[i - 1]?.at ?? -1;
        const between = model.curves.parts.slice(from + 1, gauge.at);
        const clean = between.reduce((sum, part) => sum + (part?.lossBar[at] ?? 0), 0);
        const faults = world.effects.filter((e) => e.partLoss && e.at > from && e.at < gauge.at);
        // cartridges in use are loaded by a third on the whole
        const drop = faults.reduce((sum, e) => sum + (e.partLoss?.[at] ?? 0), 1.3 * clean);
        expect(shown[w]?.mean[i]).toBeCloseTo(i === 0 ? outlet - drop : drop, 9);
        const reading = Math.SQRT2 * Math.hypot(gauge.readingBar, 0.4 * gauge.offsetBar);
        const spread = Math.hypot(reading, 0.35 * drop, i === 0 ? level : 0);
        expect(shown[w]?.sd[i]).toBeCloseTo(spread, 9);
      });
    });
  });

  it('with taps shut they show the level that source and control leave, all alike', () => {
    const every = everyFault(judgement);
    const shown = predictReadings('closed', judgement, every);
    every.list.forEach((world, w) => {
      const { raw, sd, gives, control, lowBar, highBar, neverStops } = source(world);
      const top = raw[0] ?? 0;
      const isHeld = control === 'variable-speed';
      const cycles = control === 'pressure-switch' && top > highBar && !neverStops;
      const [level = 0, spread = 0] = gives
        ? [0.4, 0.8] // the tank's head, or what was left
        : cycles
          ? [(lowBar + highBar) / 2, (highBar - lowBar) / Math.sqrt(12)]
          : isHeld
            ? [Math.min(top, highBar), 0.1]
            : [top, sd[0] ?? 0];
      const faulty = world.effects.find((e) => e.gauge !== null)?.gauge;
      model.gauges.forEach((gauge, i) => {
        const apart =
          gauge.id === faulty
            ? 6 * gauge.permittedBar
            : 1.4 * Math.hypot(gauge.offsetBar, gauge.readingBar);
        expect(shown[w]?.mean[i]).toBeCloseTo(i === 0 ? level : 0, 9);
        expect(shown[w]?.sd[i]).toBeCloseTo(i === 0 ? Math.hypot(spread, 0.1) : apart, 9);
      });
    });
  });

  it('answers by tables are those of the whole tables, at each world’s sets', () => {
    const { hydraulic, quality, signContext } = judgement;
    const valueAt = (world: World, observations: ReturnType<typeof observationsOf>) =>
      observations.reduce((so, o) => {
        if (world.h < 0) return so * o.unlisted;
        if (world.causes[0] === NOTHING) return so * o.nothing;
        const i = hydraulic.sets.indexOf(worlds.hSets[world.h] ?? []);
        const j = quality.sets.indexOf(worlds.qSets[world.q] ?? []);
        const both = o.joint?.[i * quality.sets.length + j] ?? 1;
        return so * (o.h?.[i] ?? 1) * (o.q?.[j] ?? 1) * both;
      }, 1);
    const row = (observations: ReturnType<typeof observationsOf>) =>
      worlds.list.map((world) => valueAt(world, observations));
    let seen = 0;
    for (const [id, { kind, combine, answers: all }] of Object.entries(ruleSet.questions)) {
      if (combine === 'none' || combine === 'solved' || kind === 'dates' || kind === 'hours')
        continue;
      seen++;
      const rows =
        kind === 'list' || kind === 'water-test'
          ? [
              ...all.map((a) =>
                row(observationsOf(id, [a], signContext).filter(({ answer }) => answer === a)),
              ),
              row(observationsOf(id, [], signContext)),
            ]
          : all.map((answer) => row(observationsOf(id, answer, signContext)));
      same(asked(id, made), scaled(rows), id);
    }
    expect(seen).toBeGreaterThan(5);
  });

  it('ages that people tell speak against what comes with age', () => {
    const ages = [
      [0.3, 0.4],
      [0.8, 0.35],
      [1.6, 0.25],
    ] as const;
    for (const [id, { kind }] of Object.entries(ruleSet.questions)) {
      if (kind !== 'dates' && kind !== 'hours') continue;
      const places = kind === 'hours' ? ['uv'] : ['sediment', 'carbon', 'membrane', 'softener'];
      const isOf = (cause: string) => {
        const table = ruleSet.causes[cause];
        return (
          table?.lifeMonths !== undefined &&
          places.includes(table.in) &&
          partsInPlace(table.in, judgement.facts.plant).length > 0
        );
      };
      // what is there exactly past its life tells its age; the rest comes with age
      const [past, wears] = [true, false].map((isPast) =>
        Object.keys(ruleSet.causes).filter(
          (cause) => isOf(cause) && (ruleSet.causes[cause]?.pastLife === true) === isPast,
        ),
      );
      const rows = ages.map(([share, chance]) =>
        worlds.list.map(({ causes }) => {
          const worn = wears?.filter((cause) => causes.includes(cause)).length ?? 0;
          const odd = past?.filter((cause) => causes.includes(cause) !== share > 1).length ?? 0;
          return chance * ageOdds(share) ** worn * 0.02 ** odd;
        }),
      );
      same(asked(id, made), scaled(rows), id);
    }
  });
});
