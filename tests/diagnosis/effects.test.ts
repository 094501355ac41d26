import { describe, expect, it } from 'vitest';
import { type Effect, effectsOf } from '../../shared/diagnosis/effects.ts';
import { curvesOf } from '../../shared/diagnosis/flow-grid.ts';
import { severitiesOf } from '../../shared/diagnosis/severity.ts';
import type { Line } from '../../shared/hydraulics/line/types.ts';
import { lineOf, lossBetweenPa, pumpOutletPa } from '../../shared/hydraulics/line.ts';
import { lpmToM3s, m3sToLpm } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';

/** How each change of the rule set shows on the plant's curves, against the line with that change in it. */
const { plant, assumed } = resolvePlant(
  parsePlant({
    name: 'effects',
    line: [
      { id: 'tank', kind: 'tank', levelM: 1.5 },
      { id: 'pre', kind: 'filter', medium: 'sediment' },
      { id: 'suction', kind: 'suction', lengthM: 3 },
      {
        ...{ id: 'pump', kind: 'pump', control: { kind: 'none' } },
        curve: [
          { flowLpm: 0, headM: 45 },
          { flowLpm: 33, headM: 34 },
          { flowLpm: 60, headM: 12 },
        ],
      },
      { id: 'G', kind: 'gauge' },
      { id: 'sed', kind: 'filter', medium: 'sediment' },
      { id: 'carbon', kind: 'filter', medium: 'carbon' },
      { id: 'around', kind: 'bypass', around: ['sed', 'carbon'] },
      { id: 'valve', kind: 'valve' },
      { id: 'prv', kind: 'pressure-reducer', setBar: 9 },
      { id: 'house', kind: 'house' },
    ],
  }),
);
const line = lineOf(plant);
const curves = curvesOf(line, plant, assumed);
const partAt = (id: string) => plant.line.findIndex((part) => part.id === id);
let ids = 0;
const all = (part: string, change: object, most = 1) =>
  effectsOf(
    { part, table: { changes: [{ share: 1, ...change }], scale: 'log' } } as never,
    ...([plant, line, curves, () => most, () => ids++] as const),
  );
const one = (part: string, change: object): Effect => {
  const [effect, ...more] = all(part, change);
  if (!effect || more.length > 0) throw new Error('not one effect');
  return effect;
};
const each = (of: (lpm: number, j: number) => number) =>
  [...curves.lpm].map((q, j) => expect.closeTo(of(q, j), 9));
const outletBar = (changed: Line, q: number) => pumpOutletPa(changed, lpmToM3s(q)) / 1e5;

describe('at the pump’s outlet', () => {
  const lost = (change: object) => {
    const effect = one('pump', change);
    expect(effect.partLoss).toBeNull();
    expect([effect.atPressure, effect.atSource]).toEqual([true, true]);
    return [...(effect.sourceLoss ?? [])];
  };
  const missing = (changed: Partial<Line>) =>
    each((q, j) => (curves.source[j] ?? 0) - outletBar({ ...line, ...changed }, q));
  const pumpWith = (differs: object) => ({ pump: line.pump && { ...line.pump, ...differs } });

  it('a worn pump lacks a share of its head, a scaled one a share of its flow', () => {
    expect(lost({ headTimes: 0.6 })).toEqual(missing(pumpWith({ headFactor: 0.6 })));
    expect(lost({ flowTimes: 0.7 })).toEqual(missing(pumpWith({ flowFactor: 0.7 })));
    // at no flow 0.4 of 45 m
    expect(lost({ headTimes: 0.6 })[0]).toBeCloseTo(
      (0.4 * 45 * 9.80665 * line.water.densityKgM3) / 1e5,
      3,
    );
    expect(lost({ flowTimes: 0.7 })[0]).toBeCloseTo(0, 9);
  });

  it('what is lost in the suction grows with the square of the flow, stated at the house’s need', () => {
    const extraSuctionLossK = (2 * 9.80665 * line.water.densityKgM3) / line.house.need.flowM3s ** 2;
    expect(lost({ suctionLossM: 2 })).toEqual(missing({ extraSuctionLossK }));
    const need = m3sToLpm(line.house.need.flowM3s);
    const beyond = curves.lpm.findIndex((q) => q > need);
    const twoMetres = (2 * 9.80665 * line.water.densityKgM3) / 1e5;
    expect(lost({ suctionLossM: 2 })[beyond - 1]).toBeLessThan(twoMetres);
    expect(lost({ suctionLossM: 2 })[beyond]).toBeGreaterThan(twoMetres);
  });

  it('a low tank lacks its level, a high one nothing', () => {
    const metre = (9.80665 * line.water.densityKgM3) / 1e5;
    expect(lost({ levelM: 0.5 })[0]).toBeCloseTo(metre, 6);
    expect(lost({ levelM: 0.5 })).toEqual(missing({ tank: { ...line.tank, levelM: 0.5 } }));
    for (const bar of lost({ levelM: 3 })) expect(bar).toBeCloseTo(0, 9);
  });

  it('what sits before the pump is missing behind it', () => {
    const before = one('pre', { extraBarAt20Lpm: 0.4 });
    expect([...(before.sourceLoss ?? [])]).toEqual(each((q) => 0.4 * (q / 20) ** 2));
    expect(before.partLoss).toBeNull();
    expect([before.atPressure, before.atSource]).toEqual([true, true]);
  });
});

describe('in the line', () => {
  const loss = (part: string, change: object) => {
    const effect = one(part, change);
    expect(effect.sourceLoss).toBeNull();
    expect([effect.atPressure, effect.atSource]).toEqual([false, false]);
    expect(effect.at).toBe(partAt(part));
    return effect.partLoss && [...effect.partLoss];
  };
  const element = (id: string) => line.elements.findIndex((e) => e.id === id);
  const lossBar = (id: string, changed: Line, q: number) =>
    lossBetweenPa(changed, element(id), element(id) + 1, lpmToM3s(q)) / 1e5;

  it('a loaded cartridge takes so many times what grows with the flow', () => {
    const loaded: Line = {
      ...line,
      elements: line.elements.map((e) => (e.id === 'sed' ? { ...e, linearFactor: 8 } : e)),
    };
    expect(loss('sed', { linearTimes: 8 })).toEqual(
      each((q) => lossBar('sed', loaded, q) - lossBar('sed', line, q)),
    );
    // a part that takes nothing cannot load
    expect(loss('G', { linearTimes: 8 })).toBeNull();
  });

  it('a throttled part takes more by the square of the flow, stated at 20 L/min', () => {
    expect(loss('valve', { extraBarAt20Lpm: 0.5 })).toEqual(each((q) => 0.5 * (q / 20) ** 2));
  });

  it('what a reducer holds depends on what stands before it, so it is no loss at a flow', () => {
    expect(loss('prv', { reducerBar: -0.7 })).toBeNull();
    expect(one('prv', { reducerBar: -0.7 }).atReducer).toBe(true);
    expect(one('prv', { reducerPasses: true }).atReducer).toBe(false);
  });

  it('an open bypass leaves a tenth of what stands beside it', () => {
    expect(loss('around', { bypassOpen: true })).toEqual(
      each((q) => -0.9 * (lossBar('sed', line, q) + lossBar('carbon', line, q))),
    );
    expect(loss('valve', { bypassOpen: true })).toBeNull();
  });

  it('other changes take nothing', () => {
    expect(loss('sed', {})).toBeNull();
  });
});

describe('what an effect touches', () => {
  it.each<[object, boolean, boolean]>([
    [{ pumpGives: 'hums' }, true, true],
    [{ neverStops: true }, true, true],
    [{ unsteadyShare: 0.3 }, true, true],
    [{ cutInBar: -0.5 }, true, true],
    [{ cutOutBar: 0.5 }, true, true],
    [{ gasTimes: 0.2 }, false, true],
    [{ prechargeBar: -1 }, false, true],
    [{ waterlogged: true }, false, true],
    [{ leakLpm: 1 }, false, true],
    [{ backLeakLpm: 1 }, false, true],
    [{ housePipeTimes: 3 }, false, false],
    [{ demandTimes: 2 }, false, false],
    [{}, false, false],
  ])('%j: the source’s pressure %s, the source at all %s', (change, atPressure, atSource) => {
    expect(one('house', change)).toMatchObject({ atPressure, atSource, sourceLoss: null });
  });

  it('the house: × its pipe, ln of its outlets’ size', () => {
    expect(one('house', { housePipeTimes: 3 })).toMatchObject({ pipeTimes: 3, outletLn: 0 });
    const outlets = one('house', { outletTimes: 0.5 });
    expect([outlets.pipeTimes, outlets.outletLn]).toEqual([1, Math.log(0.5)]);
  });

  it('a gauge that reads wrong, and nothing but a gauge', () => {
    expect(one('G', { gaugeShare: 0.1 }).gauge).toBe('G');
    expect(one('G', {}).gauge).toBeNull();
    expect(one('sed', { gaugeShare: 0.1 }).gauge).toBeNull();
  });

  it('each severity is an effect of its own with its chance and its spread', () => {
    const change = { extraBarAt20Lpm: [0.1, 1.6] };
    const effects = all('valve', change, 9);
    const table = { changes: [{ share: 1, ...change }], scale: 'log' };
    const severities = severitiesOf({ table } as never, () => 9);
    expect(effects.map(({ weight, spread, change: c }) => ({ weight, spread, change: c }))).toEqual(
      severities,
    );
    expect(new Set(effects.map(({ id }) => id)).size).toBe(effects.length);
    expect(effects.length).toBeGreaterThan(2);
  });
});
