import { describe, expect, it } from 'vitest';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import { waterAt } from '../../shared/hydraulics/water.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { stageSeries, uncertaintyAt } from '../../shared/upkeep/resistance.ts';
import { parsed, rules } from './tables.ts';
import { flowController, pressureSwitch } from './trials.ts';
import { plantWith } from './virtual.ts';

const gauges = ['G1', 'G2', 'G3'];

/** What gauges with kept errors show of a line whose sediment stage is loaded so many times. */
function reading(
  control: object,
  at: string,
  times: number,
  open: number,
  tempC: number,
  offsets = [0.05, -0.06, 0.03],
  round = 0.05,
) {
  const plant = plantWith(control, 0.1, '2026-01-05');
  const clean = lineOf(resolvePlant(parsePlant(plant)).plant);
  const line = {
    ...clean,
    water: waterAt(tempC),
    elements: clean.elements.map((element) =>
      element.id === 'sed-1' ? { ...element, linearFactor: times } : element,
    ),
  };
  const { points, flowM3s } = solveLine(line, open === 0 ? 'closed' : { open });
  const bar = Object.fromEntries(
    gauges.map((id, i) => {
      const shown = paToBar(points.find(({ after }) => after === id)?.pa ?? 0) + (offsets[i] ?? 0);
      return [id, Math.round(shown / round) * round];
    }),
  );
  const flow = open === 0 ? {} : { flowLpm: flowM3s * 60_000 };
  return { at, taps: open === 0 ? 'closed' : { open }, bar, ...flow, waterTempC: tempC };
}

const record = (history: object[], control: object = flowController) => ({
  plant: plantWith(control, 0.1, '2026-01-05'),
  history,
});

describe('resistance told at 20 °C by amount', () => {
  it.each([
    ['a controller', flowController],
    ['a switch', pressureSwitch],
  ])(
    'is the same at 8 and 18 °C and at one and four taps, within its stated uncertainty (%s)',
    (_, control) => {
      const history = [
        reading(control, '2026-03-01', 10, 0, 13),
        reading(control, '2026-03-02', 10, 1, 8),
        reading(control, '2026-03-03', 10, 4, 18),
      ];
      const flows = history.slice(1).map((entry) => Number('flowLpm' in entry && entry.flowLpm));
      expect((flows[1] ?? 0) / (flows[0] ?? 1)).toBeGreaterThan(1.3);
      const [sediment] = stageSeries(parsed(record(history, control)), rules);
      const [cold, warm] = sediment?.points ?? [];
      for (const point of [cold, warm]) {
        const times = (point?.resistance ?? 0) / (sediment?.clean ?? 1);
        const u = uncertaintyAt(point!, point?.resistance ?? 0) / (sediment?.clean ?? 1);
        expect(Math.abs(times - 10)).toBeLessThan(2 * u);
      }
    },
  );

  it('takes a flow by bucket and watch on the same day as it takes one written beside the pressures', () => {
    const closed = reading(flowController, '2026-03-01', 10, 0, 13);
    const { flowLpm, ...open } = {
      flowLpm: 0,
      ...reading(flowController, '2026-03-01', 10, 1, 13),
    };
    const bucket = {
      at: '2026-03-01',
      question: 'flow',
      value: { litres: 10, seconds: 600 / flowLpm },
    };
    const pointsOf = (...more: object[]) =>
      stageSeries(parsed(record([closed, ...more])), rules)[0]?.points[0];
    const beside = pointsOf({ ...open, flowLpm });
    const apart = pointsOf(open, bucket);
    expect(apart?.resistance).toBeCloseTo(beside?.resistance ?? 0, -2);
    expect(apart?.uByFlow).toBe(beside?.uByFlow);
    expect(pointsOf(open)?.uByFlow).not.toBe(beside?.uByFlow);
  });

  it('removes a 10 °C and a 3-fold flow difference exactly where gauges have no error', () => {
    const exact = (at: string, open: number, tempC: number) =>
      reading(flowController, at, 3, open, tempC, [0, 0, 0], 1e-9);
    // A quarter of a tap against one: three times the flow and more.
    const history = [
      exact('2026-03-01', 0, 13),
      exact('2026-03-02', 0.25, 8),
      exact('2026-03-03', 1, 18),
    ].map((entry) => (entry.taps === 'closed' ? entry : { ...entry, taps: 'part-open' }));
    const flows = history.slice(1).map((entry) => Number('flowLpm' in entry && entry.flowLpm));
    expect((flows[1] ?? 0) / (flows[0] ?? 1)).toBeGreaterThan(3);
    const [sediment] = stageSeries(parsed(record(history)), rules);
    for (const point of sediment?.points ?? []) {
      expect(point.resistance / (sediment?.clean ?? 1)).toBeCloseTo(3, 2);
    }
    expect(sediment?.points).toHaveLength(2);
  });

  it('without its kept gauge error taken out would be wrong by more', () => {
    const open = [
      reading(flowController, '2026-03-02', 2, 1, 15),
      reading(flowController, '2026-03-03', 2, 1, 15),
    ];
    const closed = reading(flowController, '2026-03-01', 2, 0, 15);
    const [blind] = stageSeries(parsed(record(open)), rules);
    const [seeing] = stageSeries(parsed(record([closed, ...open])), rules);
    const off = (series: typeof blind) =>
      Math.abs((series?.points[0]?.resistance ?? 0) / (series?.clean ?? 1) - 2);
    expect(off(seeing)).toBeLessThan(off(blind));
    expect(seeing?.points[0]?.uByDrop).toBeLessThan(blind?.points[0]?.uByDrop ?? 0);
  });

  it('leaves out a stretch with an open bypass, and readings whose flow nobody can tell', () => {
    const history = [
      reading(flowController, '2026-03-01', 2, 0, 15),
      { ...reading(flowController, '2026-03-02', 2, 1, 15), taps: 'part-open', flowLpm: undefined },
    ].map((entry) => JSON.parse(JSON.stringify(entry)) as object);
    const [series] = stageSeries(parsed(record(history)), rules);
    expect(series?.points).toEqual([]);
    const plant = plantWith(flowController, 0.1, '2026-01-05');
    const bypassed = {
      ...plant,
      line: plant.line.toSpliced(6, 0, {
        ...{ id: 'way-round', kind: 'bypass', around: ['sed-1'], open: true },
      } as never),
    };
    const some = reading(flowController, '2026-03-02', 2, 1, 15);
    const found = stageSeries(parsed({ plant: bypassed, history: [some] }), rules);
    expect(found.map(({ filters }) => filters)).toEqual([['carbon-1']]);
  });
});
