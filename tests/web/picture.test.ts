import { describe, expect, test } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import { fernhollow, readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { cleanBand } from '../../web/drawing/clean-band.ts';
import { pictureOf } from '../../web/drawing/picture.ts';

const { ruleSet, words } = latestRuleSet();
const day = '2026-11-25';

function drawn(
  plant: Plant,
  bars: { closed?: Record<string, number>; open?: Record<string, number> },
) {
  const answers = [
    ...(bars.closed ? [{ question: 'readings', value: { taps: 'closed', bar: bars.closed } }] : []),
    ...(bars.open ? [{ question: 'readings', value: { taps: { open: 1 }, bar: bars.open } }] : []),
  ];
  const english = words.en;
  if (!english) throw new Error('the rule set speaks English');
  const facts = factsOf(plant, answers, ruleSet, { system: day });
  const result = diagnose({ plant, answers }, ruleSet, english, day);
  const first = result.causes[0];
  const likely = first?.parts ? { cause: first.id, parts: first.parts } : null;
  return { result, picture: pictureOf(facts, result.segments, likely) };
}

const at = (id: string): number => fernhollow.line.findIndex((part) => part.id === id);

describe('the picture of the guesthouse with a loaded stage', () => {
  const { picture, result } = drawn(fernhollow, {
    closed: { G1: 3.4, G2: 3.4, G3: 3.3, G4: 3.4 },
    open: { G1: 2.7, G2: 0.9, G3: 0.7, G4: 0.8 },
  });

  test('marks the fall between the gauges round the stage as heavy, and no other', () => {
    const heavy = picture.falls.filter(({ weight }) => weight === 'heavy');
    expect(heavy.map(({ from, to }) => [from, to])).toEqual([[at('G1'), at('G2')]]);
  });

  test('says the drop that the diagnosis gives', () => {
    const segment = result.segments.find(
      ({ from, to, taps }) => from === 'G1' && to === 'G2' && taps !== 'closed',
    );
    expect(picture.falls[0]?.dropBar).toBe(segment?.dropBar);
    expect((picture.falls[0]?.cleanBar ?? 0) * (segment?.timesClean ?? 0)).toBeCloseTo(
      segment?.dropBar ?? 0,
      6,
    );
  });

  test('draws the open line with each gauge its own offset taken out, and shows what was read', () => {
    const third = picture.open.find((reading) => reading.at === at('G3'));
    expect(third?.shownBar).toBe(0.7);
    expect(third?.bar).toBeGreaterThan(0.7); // it reads a tenth low with the taps shut
  });

  test('marks the likely parts with their probability', () => {
    const marked = picture.parts
      .filter(({ probability }) => probability !== null)
      .map(({ id }) => id);
    expect(marked.length).toBeGreaterThan(0);
    for (const id of marked) expect(['sed-1', 'sed-2']).toContain(id);
  });

  test('leaves room above everything that is drawn', () => {
    const all = [...picture.closed, ...picture.open].map(({ bar }) => bar);
    expect(picture.topBar).toBeGreaterThanOrEqual(
      Math.max(...all, ...picture.clean.map(({ bar }) => bar)),
    );
  });
});

test('a gauge three metres higher that reads 0.29 bar less stands at the same level: only losses make the line fall', () => {
  const plant: Plant = {
    ...fernhollow,
    line: fernhollow.line.map((part) => (part.id === 'G4' ? { ...part, heightM: 3.5 } : part)),
  };
  const { picture } = drawn(plant, { closed: { G1: 3.4, G4: 3.11 } });
  const [first, last] = picture.closed;
  expect(Math.abs((first?.bar ?? 0) - (last?.bar ?? 9))).toBeLessThan(0.01);
});

describe.each(readyMade)('the clean band of $id', ({ plant }) => {
  test('holds the solved clean line and is nowhere inside out', () => {
    const solution = solveLine(lineOf(resolvePlant(plant).plant), { open: 1 });
    const solved = new Map(solution.points.map(({ after, pa }) => [after, paToBar(pa)]));
    cleanBand(plant, { open: 1 }).forEach(({ lowBar, bar, highBar }, i) => {
      const known = solved.get(plant.line[i]?.id ?? '');
      if (known !== undefined) expect(bar).toBeCloseTo(known, 9);
      expect(lowBar).toBeLessThanOrEqual(Math.max(0, bar) + 1e-9);
      expect(highBar).toBeGreaterThanOrEqual(bar - 1e-9);
    });
  });
});

test('what the plant leaves open widens the clean band', () => {
  const width = (plant: Plant): number => {
    const house = cleanBand(plant, { open: 1 }).at(-1);
    return (house?.highBar ?? 0) - (house?.lowBar ?? 0);
  };
  const steady = (part: Plant['line'][number]) =>
    part.kind === 'pump' ? { ...part, control: { kind: 'none' as const } } : part;
  const known: Plant = { ...fernhollow, line: fernhollow.line.map(steady) };
  const vague: Plant = {
    ...known,
    line: known.line.map((part) => {
      if (part.kind !== 'pump') return part;
      const { curve: _, ...rest } = part;
      return rest;
    }),
  };
  expect(width(vague)).toBeGreaterThan(2 * width(known));
});
