import type { Facts } from '../case/facts.ts';
import type { Line } from '../hydraulics/line/types.ts';
import { lineOf } from '../hydraulics/line.ts';
import { type Assumed, type ResolvedPlant, resolvePlant } from '../plant/defaults.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Effect } from './effects.ts';
import { type Curves, curvesOf } from './flow-grid.ts';
import { type GaugeError, gaugesOf } from './gauge-errors.ts';
import { type Source, sourceOf } from './source.ts';

/** The plant solved once for a case: what every likelihood is computed on. */
export interface Model {
  readonly plant: ResolvedPlant;
  readonly assumed: readonly Assumed[];
  readonly line: Line;
  readonly curves: Curves;
  readonly gauges: readonly GaugeError[];
  readonly sourceWith: (effects: readonly Effect[]) => Source;
}

export function modelOf(facts: Facts, rules: RuleSet): Model {
  const { plant, assumed } = resolvePlant(withTankLevel(facts, rules));
  const line = lineOf(plant);
  const curves = curvesOf(line, plant, assumed);
  const build = (effects: readonly Effect[]) =>
    sourceOf(plant, curves, line.airPa, settingSd(assumed), effects);
  const none = build([]);
  const singles: Source[] = [];
  const pairs: Source[][] = [];
  const sourceWith = (effects: readonly Effect[]): Source => {
    const [first, second] = effects;
    const a = first?.atSource ? first : second?.atSource ? second : null;
    const b = a === first && second?.atSource ? second : null;
    if (!a) return none;
    if (!b) {
      singles[a.id] ??= build([a]);
      return singles[a.id] ?? none;
    }
    const row = pairs[a.id] ?? [];
    pairs[a.id] = row;
    row[b.id] ??= build([a, b]);
    return row[b.id] ?? none;
  };
  return { plant, assumed, line, curves, gauges: gaugesOf(plant), sourceWith };
}

/** Control pressures left out of the plant may be 0.3 bar off (contract); a dial or a data sheet is good to a few hundredths. */
function settingSd(assumed: readonly Assumed[]): number {
  return assumed.some(({ field }) => field.startsWith('control')) ? 0.3 / Math.sqrt(3) : 0.05;
}

/** A level told in metres is a fact of the plant as well as an answer. */
function withTankLevel(facts: Facts, rules: RuleSet): Facts['plant'] {
  for (const [id, question] of Object.entries(rules.questions)) {
    const value = question.kind === 'tank-level' ? facts.values.get(id) : undefined;
    if (typeof value !== 'object' || value === null) continue;
    const { m } = value as { m: number };
    // A low tank is a cause to be found, so the clean line keeps at least the level that counts as enough.
    const levelM = Math.max(0.2, m);
    return {
      ...facts.plant,
      line: facts.plant.line.map((part) => (part.kind === 'tank' ? { ...part, levelM } : part)),
    };
  }
  return facts.plant;
}
