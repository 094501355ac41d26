import { describe, expect, it } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import { candidatesOf } from '../../shared/diagnosis/evidence.ts';
import { modelOf } from '../../shared/diagnosis/model.ts';
import { blockOf } from '../../shared/diagnosis/sets.ts';
import { sourceOf } from '../../shared/diagnosis/source.ts';
import { suspectsOf } from '../../shared/diagnosis/suspects.ts';
import { twoGauges } from '../two-gauges.ts';
import type { Answers } from './judged.ts';
import { DAY, ruleSet } from './rules.ts';

const built = (answers: Answers = [], plant: object = twoGauges) => {
  const facts = factsOf(plant, answers, ruleSet, { system: DAY });
  return { facts, model: modelOf(facts, ruleSet) };
};

describe('the plant solved once', () => {
  const { facts, model } = built();
  const suspects = suspectsOf(facts, ruleSet).hydraulic;
  const block = blockOf([...new Set(suspects.map(({ cause }) => cause))]);
  const effects = candidatesOf(suspects, block, model).flatMap(({ rough }) => rough);
  const atSource = effects.filter((effect) => effect.atSource);
  const elsewhere = effects.filter((effect) => !effect.atSource);
  const anew = (...of: Effect[]) =>
    sourceOf(model.plant, model.curves, model.line.airPa, model.sourceWith([]).settingSd, of);

  it('has the source of every fault and of every two, asked once or again', () => {
    expect(atSource.length).toBeGreaterThan(8);
    expect(model.sourceWith([])).toEqual(anew());
    for (const again of [false, true])
      for (const a of atSource) {
        expect(model.sourceWith([a]), `${again}`).toEqual(anew(a));
        for (const b of atSource.slice(0, 4)) {
          if (a !== b) expect(model.sourceWith([a, b])).toEqual(anew(a, b));
        }
      }
  });

  it('what sits behind the source leaves it as it is, first or second', () => {
    const [a] = atSource;
    const [b, c] = elsewhere;
    if (!a || !b || !c) throw new Error('too few faults');
    expect(model.sourceWith([b])).toBe(model.sourceWith([]));
    expect(model.sourceWith([b, c])).toBe(model.sourceWith([]));
    expect(model.sourceWith([a, b])).toBe(model.sourceWith([a]));
    expect(model.sourceWith([b, a])).toBe(model.sourceWith([a]));
  });
});

it('a plant without a pump has the tank alone', () => {
  const bare = twoGauges.line.filter(({ kind }) => kind !== 'pump' && kind !== 'vessel');
  const line = bare.map((part) =>
    part.kind === 'tank' ? { ...part, levelM: 1, outletHeightM: 9 } : part,
  );
  const { model } = built([], { ...twoGauges, line });
  const { control, raw, cycling, prechargeBar, gives } = model.sourceWith([]);
  expect([control, prechargeBar, gives]).toEqual(['none', null, null]);
  // one metre of water over its outlet, told there
  expect(raw[0]).toBeCloseTo((9.80665 * model.line.water.densityKgM3) / 1e5, 6);
  expect(Math.max(...cycling)).toBe(0);
});

describe('what the control is set to', () => {
  const sdOf = (control: object | undefined) => {
    const line = twoGauges.line.map((part) =>
      part.kind === 'pump' ? { id: 'pump', kind: 'pump', ...(control && { control }) } : part,
    );
    return built([], { ...twoGauges, line }).model.sourceWith([]).settingSd;
  };
  it('is known to a few hundredths where the plant says it, else to 0.3 bar either way', () => {
    expect(sdOf({ kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 })).toBe(0.05);
    // an even spread of 0.3 to both sides
    expect(sdOf({ kind: 'pressure-switch', cutInBar: 2 })).toBeCloseTo(0.3 / Math.sqrt(3), 12);
    expect(sdOf(undefined)).toBeCloseTo(0.3 / Math.sqrt(3), 12);
  });
});

describe('a level told in metres', () => {
  const level = (value: unknown) =>
    built([{ question: 'tank-level', value }]).model.plant.line.map((part) =>
      part.kind === 'tank' ? part.levelM : null,
    )[0];
  it('is the plant’s, but never under what counts as enough: low is a cause to be found', () => {
    expect(level({ m: 1.7 })).toBe(1.7);
    expect(level({ m: 0.1 })).toBe(0.2);
    expect(level('low')).toBe(level('full'));
    expect(level('full')).not.toBe(1.7);
  });
});
