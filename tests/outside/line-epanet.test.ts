import { Workspace } from 'epanet-js';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Line, lineOf, type Solution, solveLine } from '../../shared/hydraulics/line.ts';
import { type ResolvedPlant, resolvePlant } from '../../shared/plant/defaults.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { measured } from '../full.ts';
import { seeded } from '../seeded.ts';
import { buildNetwork, type Feed, solveNetwork } from './epanet/network.ts';
import { randomTrial } from './epanet/random-plants.ts';

/**
 * The whole line against EPANET 2.3 (US EPA, Open Water Analytics), on plants neither was made for. EPANET knows no
 * pressure switch: where our pump cycles or holds a set pressure, it gets that pressure held at the pump's outlet, and
 * with its own pump it must show that the pump could do more. Its friction is Swamee–Jain's and its filters are
 * straight lines between curve points: together they stay within the 1 % and 0.02 bar allowed here.
 */
const SEED = 20261125;
const PLANTS = 400;

interface Compared {
  readonly label: string;
  readonly running: Solution['running'];
  readonly flowShare: number;
  readonly worstBar: number;
}

describe(`${PLANTS} random plants (seed ${SEED}) against EPANET`, () => {
  const results: Compared[] = [];
  let couldDoMore = 0;

  beforeAll(async () => {
    const ws = new Workspace();
    await ws.loadModule();
    const random = seeded(SEED);
    for (let i = 0; i < PLANTS; i++) {
      const { plant, open } = randomTrial(random);
      const resolved = resolvePlant(parsePlant(plant)).plant;
      const line = lineOf(resolved);
      const solution = solveLine(line, open);
      const feed = feedOf(line, solution);
      const asked = (by: Feed) => {
        const network = buildNetwork(ws, resolved, open, by, line.water);
        const answer = solveNetwork(network);
        network.project.close();
        return answer;
      };
      const theirs = asked(feed);
      results.push(compare(`plant ${i}`, resolved, line, solution, theirs, feed));
      if (feed !== 'pump') {
        const free = asked('pump');
        const freePa = pressurePa(line, free.heads.get('pump') ?? 0, line.pump?.heightM ?? 0);
        const stopPa =
          line.control.kind === 'pressure-switch' ? line.control.cutOutPa : feed.heldPa;
        if (freePa >= stopPa - 2000) couldDoMore++;
      }
    }
  });

  it('flow agrees within 1 % on every one', () => {
    expect(results.filter((result) => result.flowShare > 0.01)).toEqual([]);
    const worst = 100 * Math.max(...results.map(({ flowShare }) => flowShare));
    measured(`flow against EPANET, ${PLANTS} random plants: worst`, worst, '%', '≤ 1');
  });

  it('every pressure agrees within 0.02 bar', () => {
    expect(results.filter((result) => result.worstBar > 0.02)).toEqual([]);
    const worst = Math.max(...results.map(({ worstBar }) => worstBar));
    measured(`pressure against EPANET, ${PLANTS} random plants: worst`, worst, 'bar', '≤ 0.02');
  });

  it('wherever we say the pump stops or throttles, EPANET’s own pump reaches that pressure', () => {
    const held = results.filter((result) => result.label.endsWith('held'));
    expect(held.length).toBeGreaterThan(50);
    expect(couldDoMore).toBe(held.length);
  });

  it('steady and cycling plants are both among them', () => {
    expect(results.filter((result) => result.running === 'steady').length).toBeGreaterThan(100);
    expect(results.filter((result) => result.running === 'cycling').length).toBeGreaterThan(30);
  });
});

/** What EPANET is given instead of a control it does not know. */
function feedOf(line: Line, solution: Solution): Feed {
  const pumpPa = solution.points.find((point) => point.after === 'pump')?.pa ?? 0;
  const holds = line.control.kind === 'variable-speed' && Math.abs(pumpPa - line.control.setPa) < 1;
  return solution.running === 'cycling' || holds ? { heldPa: pumpPa } : 'pump';
}

function pressurePa(line: Line, headM: number, heightM: number): number {
  return (headM - heightM) * line.water.densityKgM3 * 9.80665;
}

function compare(
  name: string,
  plant: ResolvedPlant,
  line: Line,
  solution: Solution,
  theirs: { flowLpm: number; heads: ReadonlyMap<string, number> },
  feed: Feed,
): Compared {
  const flowLpm = solution.flowM3s * 60_000;
  let worstBar = 0;
  for (const part of plant.line) {
    const head = theirs.heads.get(part.id);
    const ours = solution.points.find((point) => point.after === part.id);
    // Before a held pressure EPANET has no line; the tank's point is the water's own column.
    if (head === undefined || !ours || part.kind === 'tank') continue;
    const bar = Math.abs(ours.pa - pressurePa(line, head, part.heightM)) / 1e5;
    worstBar = Math.max(worstBar, bar);
  }
  return {
    label: `${name} ${line.control.kind} ${feed === 'pump' ? 'free' : 'held'}`,
    running: solution.running,
    flowShare: Math.abs(theirs.flowLpm - flowLpm) / flowLpm,
    worstBar,
  };
}
