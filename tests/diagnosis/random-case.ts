import fc from 'fast-check';
import { ruleSet } from './rules.ts';

/** Random well-formed cases: any parts in any order, any number of gauges, any subset of answers. */

const maybe = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: undefined });
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const control = fc.oneof(
  fc.record({
    kind: fc.constant('pressure-switch'),
    cutInBar: between(1, 2.4),
    cutOutBar: between(2.6, 5),
  }),
  fc.record({
    kind: fc.constant('flow-controller'),
    startBar: between(1, 2),
    minFlowLpm: between(0.5, 3),
  }),
  fc.record({ kind: fc.constant('variable-speed'), setBar: between(2, 5) }),
  fc.record({ kind: fc.constant('none') }),
);

const middle = fc.oneof(
  fc.record({
    kind: fc.constant('filter'),
    medium: fc.constantFrom('sediment', 'carbon', 'membrane', 'softener'),
  }),
  fc.record({
    kind: fc.constant('filter'),
    medium: fc.constantFrom('sediment', 'carbon'),
    fittedOn: fc.constantFrom('2026-01-10', '2025-02-01'),
    lifeMonths: between(3, 24),
  }),
  fc.record({ kind: fc.constant('gauge') }),
  fc.record({
    kind: fc.constant('gauge'),
    rangeBar: fc.constantFrom(4, 6, 10),
    classPercent: fc.constantFrom(1, 1.6, 2.5, 4),
  }),
  fc.record({ kind: fc.constant('uv') }),
  fc.record({ kind: fc.constant('valve') }),
  fc.record({ kind: fc.constant('check-valve') }),
  fc.record({ kind: fc.constant('pressure-reducer'), setBar: between(1.5, 3) }),
);

const source = fc
  .tuple(fc.boolean(), fc.boolean(), fc.boolean(), maybe(control), fc.boolean())
  .map(([tank, suction, pump, how, vessel]) => [
    ...(tank || !pump ? [{ id: 'tank', kind: 'tank' }] : []),
    ...(suction ? [{ id: 'suction', kind: 'suction' }] : []),
    ...(pump ? [{ id: 'pump', kind: 'pump', ...(how && { control: how }) }] : []),
    ...(vessel && pump ? [{ id: 'vessel', kind: 'vessel' }] : []),
  ]);

const plantArb = fc
  .tuple(source, fc.array(middle, { maxLength: 9 }), fc.boolean())
  .map(([start, parts, taps]) => ({
    name: 'random',
    line: [
      ...start,
      ...parts.map((part, i) => ({ id: `p${i}`, ...part })),
      { id: 'house', kind: 'house', ...(taps && { taps: [{ id: 'bath', heightM: 5 }] }) },
    ],
  }));

type PlantJson = ReturnType<typeof plantArb.generate>['value'];

function answersArb(plant: PlantJson): fc.Arbitrary<{ question: string; value: unknown }[]> {
  const gauges = plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id);
  const filters = plant.line.filter((part) => part.kind === 'filter').map((part) => part.id);
  const bars = fc.record(
    Object.fromEntries(
      gauges.map((id) => [
        id,
        fc.oneof(
          { weight: 8, arbitrary: between(0, 9) },
          { weight: 1, arbitrary: fc.constant('unknown') },
        ),
      ]),
    ),
  );
  const readings = fc.record({
    taps: fc.oneof(
      fc.constant('closed'),
      fc.constant('part-open'),
      fc.record({ open: fc.integer({ min: 1, max: 4 }) }),
    ),
    bar: bars,
  });
  const byQuestion = Object.entries(ruleSet.questions).flatMap(([question, { kind, answers }]) => {
    const value = arbitraryFor(kind, answers, gauges, filters, readings);
    return value
      ? [
          fc.record({
            question: fc.constant(question),
            value: fc.oneof(
              { weight: 12, arbitrary: value },
              { weight: 1, arbitrary: fc.constant('unknown') },
            ),
          }),
        ]
      : [];
  });
  return fc.array(fc.oneof(...byQuestion), { maxLength: 16 });
}

function arbitraryFor(
  kind: string,
  answers: readonly string[],
  gauges: readonly string[],
  filters: readonly string[],
  readings: fc.Arbitrary<unknown>,
): fc.Arbitrary<unknown> | null {
  switch (kind) {
    case 'choice':
      return fc.constantFrom(...answers);
    case 'list':
      return fc.subarray([...answers], { maxLength: 3 });
    case 'tank-level':
      return fc.oneof(fc.constantFrom(...answers), fc.record({ m: between(0, 3) }));
    case 'readings':
      return gauges.length > 0 ? readings : null;
    case 'flow':
      return fc.record({ litres: between(0.5, 20), seconds: between(3, 600) });
    case 'pressure':
      return fc.record({ bar: between(0, 8) });
    case 'pressure-loss':
      return fc.record({ lostBar: between(0, 4), minutes: between(1, 60) });
    case 'precharge':
      return fc.oneof(fc.constant('water-at-valve'), fc.record({ bar: between(0, 4) }));
    case 'cycle-times':
      return fc.record({
        onS: between(1, 300),
        offS: between(1, 900),
        taps: fc.constantFrom('closed', 'open'),
      });
    case 'hours':
      return between(0, 30000);
    case 'dates':
      return filters[0] ? fc.constant({ [filters[0]]: '2026-05-01' }) : null;
    case 'vacuum':
      return fc.record({ bar: between(-1, 0) });
    case 'housing':
      return filters[0]
        ? fc.record({
            removed: fc.constant([filters[0]]),
            result: fc.constantFrom('restored', 'better', 'same'),
          })
        : null;
    case 'water-test':
      return fc.record(
        {
          ph: between(4, 9),
          turbidityNtu: between(0, 30),
          eColi: fc.constantFrom('present', 'absent'),
        },
        { requiredKeys: [] },
      );
    default:
      return null;
  }
}

export const caseArb = plantArb.chain((plant) =>
  answersArb(plant).map((answers) => ({ plant, answers })),
);
