import { describe, expect, it } from 'vitest';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import { below, density, evenDensity } from '../../shared/diagnosis/normal.ts';
import {
  cycleSeconds,
  pressureDensity,
  restDensity,
  type Source,
  sourceOf,
} from '../../shared/diagnosis/source.ts';
import { drawdownM3 } from '../../shared/hydraulics/vessel.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { along, curvesWith, effect, integral, LPM, sourceWith } from './made-line.ts';

const AIR_PA = 101_325;
const SETTING_SD = 0.07;
const built = (control: object, effects: Effect[] = [], vessel: object | null = null) =>
  sourceOf(
    resolvePlant(
      parsePlant({
        name: 'test',
        line: [
          { id: 'tank', kind: 'tank' },
          { id: 'pump', kind: 'pump', control },
          ...(vessel ? [{ id: 'vessel', kind: 'vessel', ...vessel }] : []),
          { id: 'house', kind: 'house' },
        ],
      }),
    ).plant,
    curvesWith(),
    AIR_PA,
    SETTING_SD,
    effects,
  );
const switched = { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 };
const controlled = { kind: 'flow-controller', startBar: 1.5, minFlowLpm: 2 };
const speeded = { kind: 'variable-speed', setBar: 3 };
const none = { kind: 'none' };
const at = (values: Float64Array, i: number) => values[i] ?? Number.NaN;

describe('what the pump gives', () => {
  it('is its curve, known to its own error and the step of the grid that it falls through', () => {
    const { raw, sd } = built(none);
    LPM.forEach((q, j) => {
      expect(at(raw, j)).toBeCloseTo(5 - 0.25 * q, 12);
      // half the fall from the flow before to the one after, spread evenly: its width squared over twelve
      const [before, after] = [LPM[Math.max(0, j - 1)] ?? 0, LPM[Math.min(5, j + 1)] ?? 0];
      const step = (0.25 * (after - before)) / 2;
      expect(at(sd, j)).toBeCloseTo(Math.sqrt((0.1 + 0.01 * q) ** 2 + step ** 2 / 12), 12);
    });
  });

  it('is less by what a fault takes, the less surely the less its severity is known', () => {
    const lost = effect({ sourceLoss: along((q) => 0.1 * q), spread: 0.3 });
    const more = effect({ sourceLoss: along(() => 0.5), spread: 0.1 });
    const { raw, sd } = built(none, [lost, effect(), more]);
    expect(at(raw, 3)).toBeCloseTo(5 - 1 - 0.4 - 0.5, 12);
    const step = (0.35 * 6) / 2;
    const variance = 0.14 ** 2 + step ** 2 / 12 + (0.3 * 0.4) ** 2 + (0.1 * 0.5) ** 2;
    expect(at(sd, 3)).toBeCloseTo(Math.sqrt(variance), 12);
  });

  it('is unsteady by a share of what is left above nothing', () => {
    const air = effect({
      change: { unsteadyShare: 0.2 },
      sourceLoss: along((q) => (q > 8 ? 9 : 0)),
    });
    const { sd } = built(none, [air]);
    expect(at(sd, 1) ** 2 - at(built(none).sd, 1) ** 2).toBeCloseTo((0.2 * 4.75) ** 2, 12);
    // at the last flow nothing is left: no unsteadiness of it
    const step = (at(built(none).raw, 4) - (5 - 4 - 9)) / 2;
    expect(at(sd, 5)).toBeCloseTo(Math.sqrt(0.26 ** 2 + step ** 2 / 12), 12);
  });

  it.each(['silent', 'hums', 'runs-dry'] as const)(
    'is the tank alone where it gives nothing (%s)',
    (pumpGives) => {
      const { raw, sd, cycling, gives } = built(switched, [effect({ change: { pumpGives } })]);
      expect([...raw]).toEqual(LPM.map(() => 0.3));
      expect([...sd]).toEqual(LPM.map(() => 0.08));
      expect([...cycling]).toEqual(LPM.map(() => 0));
      expect(gives).toBe(pumpGives);
    },
  );

  it('between start and stop is the first flow of the grid at which it no longer reaches their middle', () => {
    // middle 2.75 bar, reached at 9 L/min: 16 is the first beyond
    expect(built(switched).givesLpm).toBe(16);
    // middle 4.5 bar, reached at 2 L/min
    expect(built({ ...switched, cutInBar: 4, cutOutBar: 5 }).givesLpm).toBe(4);
    // a middle it always reaches: the last
    expect(built({ ...switched, cutInBar: 0.3, cutOutBar: 0.7 }).givesLpm).toBe(16);
  });
});

describe('where the control starts and stops it', () => {
  const shifted = (change: Effect['change']) => [effect({ change })];
  it.each<[string, object, Effect[], [number, number, number]]>([
    ['a switch: as set', switched, [], [2, 3.5, 0]],
    ['a switch set off', switched, shifted({ cutInBar: -0.5, cutOutBar: 0.8 }), [1.5, 4.3, 0]],
    ['a switch: start never under 0.2 bar', switched, shifted({ cutInBar: -3 }), [0.2, 3.5, 0]],
    ['a switch: stop 0.2 bar above start', switched, shifted({ cutOutBar: -2 }), [2, 2.2, 0]],
    ['a controller: from its start to shut-off', controlled, [], [1.5, 5, 2]],
    ['a controller set off', controlled, shifted({ cutInBar: 0.4 }), [1.9, 5, 2]],
    ['a controller that starts above shut-off', controlled, shifted({ cutInBar: 5 }), [5, 6.5, 2]],
    ['a held pressure, both ends', speeded, [], [3, 3, 0]],
    ['a held pressure set off', speeded, shifted({ cutOutBar: -1 }), [2, 2, 0]],
    ['no control: shut-off', none, [], [5, 5, 0]],
  ])('%s', (_, control, effects, expected) => {
    const { lowBar, highBar, minFlowLpm } = built(control, effects);
    [lowBar, highBar, minFlowLpm].forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i] ?? Number.NaN, 12);
    });
  });

  it('cycles at a flow with the chance that it can give more than the stop pressure', () => {
    const { cycling, raw, sd } = built(switched);
    LPM.forEach((_, j) => {
      expect(at(cycling, j)).toBeCloseTo(below((at(raw, j) - 3.5) / at(sd, j)), 12);
    });
    const { cycling: small } = built(controlled);
    expect(at(small, 0)).toBe(1);
    expect(at(small, 2)).toBeCloseTo(0.5, 6); // 2 L/min, its least flow
    expect(at(small, 1)).toBeCloseTo(below(Math.log(2) / 0.2), 12);
    for (const control of [speeded, none])
      expect([...built(control).cycling]).toEqual(LPM.map(() => 0));
    const stuck = built(switched, [effect({ change: { neverStops: true } })]);
    expect(stuck.neverStops).toBe(true);
    expect([...stuck.cycling]).toEqual(LPM.map(() => 0));
  });
});

describe('the vessel', () => {
  const vessel = { volumeL: 24, prechargeBar: 1.8 };
  const drawdown = (volumeL: number, prechargeBar: number) =>
    1000 *
      drawdownM3(
        { volumeM3: volumeL / 1000, prechargePa: prechargeBar * 1e5 },
        2e5,
        3.5e5,
        AIR_PA,
      ) +
    0.15;
  it.each<[string, Effect['change'], number, number]>([
    ['sound', {}, 24, 1.8],
    ['with a charge of 0.8 bar less', { prechargeBar: -0.8 }, 24, 1],
    ['with a charge that can fall no lower', { prechargeBar: -3 }, 24, 0],
    ['with a third of its gas', { gasTimes: 1 / 3 }, 8, 1.8],
    ['full of water', { waterlogged: true }, 0.72, 1.8],
  ])('%s gives what Boyle says, and the pipes a little', (_, change, volumeL, prechargeBar) => {
    const source = built(switched, [effect({ change })], vessel);
    expect(source.drawdownL).toBeCloseTo(drawdown(volumeL, prechargeBar), 9);
    expect(source.prechargeBar).toBeCloseTo(prechargeBar, 12);
    expect(source.waterlogged).toBe(change.waterlogged === true);
  });

  it('that is not there leaves the pipes', () => {
    const { drawdownL, prechargeBar } = built(switched);
    expect(drawdownL).toBeCloseTo(0.15, 12);
    expect(prechargeBar).toBeNull();
  });

  it('is emptied by what is drawn and filled by what the pump gives besides', () => {
    const source = sourceWith({ drawdownL: 8, givesLpm: 20 });
    expect(cycleSeconds(source, 4)).toEqual({ offS: 120, onS: 30 });
    // next to no flow, and a pump that gives no more than is drawn: held within reason
    expect(cycleSeconds(source, 0).offS).toBe(48_000);
    expect(cycleSeconds(source, 20).onS).toBe(960);
  });
});

it('leaks and losses of two faults add up', () => {
  const source = built(switched, [
    effect({ change: { leakLpm: 1, backLeakLpm: 0.25 } }),
    effect({ change: { leakLpm: 0.5, suctionLossM: 3 } }),
  ]);
  expect([source.leakLpm, source.backLeakLpm, source.suctionLossM]).toEqual([1.5, 0.25, 3]);
});

const cases: [string, Partial<Source>][] = [
  ['a switch', {}],
  ['a switch that stops now and then', { cycling: along(() => 0.4) }],
  ['a switch that always cycles', { cycling: along(() => 1) }],
  ['a switch that never stops', { neverStops: true }],
  ['a controller', { control: 'flow-controller' }],
  ['a controller that cycles', { control: 'flow-controller', cycling: along(() => 0.7) }],
  ['a held pressure', { control: 'variable-speed', lowBar: 3, highBar: 3 }],
  ['no control', { control: 'none' }],
  ['a dead pump', { gives: 'silent', raw: along(() => 0.3) }],
  ['a leak', { leakLpm: 1 }],
  ['a controller beside a leak', { control: 'flow-controller', backLeakLpm: 1 }],
];

describe('a reading at the outlet', () => {
  it.each(cases)('%s: its density sums to one at every flow, and at rest', (_, differs) => {
    const source = sourceWith(differs);
    LPM.forEach((_, j) => {
      expect(integral((bar) => pressureDensity(source, j, bar, 0.2), -6, 14)).toBeCloseTo(1, 6);
    });
    expect(integral((bar) => restDensity(source, bar, 0.2), -6, 14)).toBeCloseTo(1, 6);
  });

  const sd = Math.hypot(0.1, 0.2);
  const setSd = Math.hypot(0.05, 0.2);
  it('while running lies at what the pump gives, no higher than its stop', () => {
    expect(pressureDensity(sourceWith(), 4, 2.8, 0.2)).toBeCloseTo(density(2.8, 3, sd), 9);
    expect(pressureDensity(sourceWith(), 0, 2.8, 0.2)).toBeCloseTo(density(2.8, 3.5, sd), 9);
    for (const free of [{ neverStops: true }, { control: 'flow-controller' as const }])
      expect(pressureDensity(sourceWith(free), 0, 4.9, 0.2)).toBeCloseTo(density(4.9, 5, sd), 9);
  });

  it('while cycling lies anywhere between start and stop', () => {
    const source = sourceWith({ cycling: along(() => 0.4) });
    expect(pressureDensity(source, 4, 2.4, 0.2)).toBeCloseTo(
      0.6 * density(2.4, 3, sd) + 0.4 * evenDensity(2.4, 2, 3.5, setSd),
      9,
    );
  });

  it('of a held pressure lies there as long as the pump can give it', () => {
    const held = { control: 'variable-speed', lowBar: 3.2, highBar: 3.2 } as const;
    expect(pressureDensity(sourceWith(held), 1, 3, 0.2)).toBeCloseTo(density(3, 3.2, setSd), 9);
    // near it, the lesser of what is given and what is held: its density by integration
    const lesser = (x: number) =>
      density(x, 3, 0.1) * below((3.2 - x) / 0.05) + density(x, 3.2, 0.05) * below((3 - x) / 0.1);
    for (const bar of [2.6, 3, 3.2, 3.5])
      expect(pressureDensity(sourceWith(held), 4, bar, 0.2)).toBeCloseTo(
        integral((x) => lesser(x) * density(bar, x, 0.2), 2, 4),
        6,
      );
    const wild = sourceWith({ ...held, neverStops: true });
    expect(pressureDensity(wild, 1, 4.6, 0.2)).toBeCloseTo(density(4.6, 4.75, sd), 9);
  });

  it('of a dead pump is mostly the tank’s head, else what was left when it stopped', () => {
    const dead = sourceWith({ gives: 'silent', raw: along(() => 0.3), sd: along(() => 0) });
    expect(pressureDensity(dead, 2, 0.3, 0.02)).toBeCloseTo(
      0.8 * density(0.3, 0.3, 0.1) + 0.2 * evenDensity(0.3, 0, 3.5, 0.02),
      9,
    );
  });

  it.each<[string, Partial<Source>, number]>([
    ['between start and stop under a switch', {}, evenDensity(2.6, 2, 3.5, setSd)],
    ['at shut-off where a switch never stops', { neverStops: true }, density(2.6, 5, sd)],
    [
      'half so, half so, where shut-off is the stop pressure',
      { highBar: 5 },
      0.5 * evenDensity(2.6, 2, 5, setSd) + 0.5 * density(2.6, 5, sd),
    ],
    [
      'near shut-off under a controller',
      { control: 'flow-controller' },
      0.85 * density(2.6, 5, sd) + 0.15 * evenDensity(2.6, 2, 5, 0.2),
    ],
    [
      'anywhere up to shut-off under a controller beside a leak',
      { control: 'flow-controller', leakLpm: 0.2 },
      evenDensity(2.6, 2, 5, sd),
    ],
    [
      'at the set pressure',
      { control: 'variable-speed', lowBar: 3, highBar: 3 },
      density(2.6, 3, Math.hypot(0.05, setSd)),
    ],
    [
      'at shut-off where that is less than the set pressure',
      { control: 'variable-speed', lowBar: 6, highBar: 6 },
      density(2.6, 5, Math.hypot(0.05, setSd)),
    ],
    ['at shut-off without a control', { control: 'none' }, density(2.6, 5, sd)],
  ])('at rest lies %s', (_, differs, expected) => {
    expect(restDensity(sourceWith(differs), 2.6, 0.2)).toBeCloseTo(expected, 6);
  });
});
