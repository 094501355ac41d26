import { Workspace } from 'epanet-js';
import { type Line, lineOf, solveLine } from '../shared/hydraulics/line.ts';
import { type ResolvedPlant, resolvePlant } from '../shared/plant/defaults.ts';
import { parsePlant } from '../shared/plant/schema.ts';
import {
  buildNetwork,
  type Feed,
  solveNetwork,
  solveOpened,
} from '../tests/outside/epanet/network.ts';
import { randomTrial } from '../tests/outside/epanet/random-plants.ts';
import { seeded } from '../tests/seeded.ts';

/**
 * Our solve against EPANET's, on the same plants, in one run and taking turns, so that whatever else the machine does
 * weighs on both. Both answer the same question: who runs, the flow, and the pressure after every part. EPANET knows no
 * pressure switch, so where a pump stops or is throttled it solves twice, as we do: the pump running free, which shows
 * that it goes past the pressure, and that pressure held. First with building counted on both sides (a plant with every
 * value filled in becomes a line, or a network), then from what is built, by the toolkit's own call (`solveH`).
 * The last row has no figure to reach: EPANET's equations left laid out between solves, solved once, the flow read only.
 */
const SEED = 20261125;
const PLANTS = 200;
const ROUNDS = 5;
/** One of our solves is too short to time: so many are timed together. */
const BATCH = 50;
const EPANET_BATCH = 5;

interface Trial {
  readonly plant: ResolvedPlant;
  readonly line: Line;
  readonly open: { readonly open: number | readonly string[] };
  readonly feeds: readonly Feed[];
}

/** Microseconds that one plant takes. */
interface Times {
  readonly built: number;
  readonly solved: number;
  readonly epanetBuilt: number;
  readonly epanetSolved: number;
  readonly epanetOpened: number;
}

const ws = new Workspace();
await ws.loadModule();
const trials = makeTrials();
for (const trial of trials) timed(trial);
print(Array.from({ length: ROUNDS }, () => trials.map(timed)).flat());

function makeTrials(): Trial[] {
  const random = seeded(SEED);
  return Array.from({ length: PLANTS }, () => {
    const { plant: raw, open } = randomTrial(random);
    const plant = resolvePlant(parsePlant(raw)).plant;
    const line = lineOf(plant);
    const solution = solveLine(line, open);
    const heldPa = solution.points.find((point) => point.after === 'pump')?.pa ?? 0;
    const throttled =
      line.control.kind === 'variable-speed' && Math.abs(heldPa - line.control.setPa) < 1;
    const feeds: Feed[] =
      solution.running === 'cycling' || throttled ? ['pump', { heldPa }] : ['pump'];
    return { plant, line, open, feeds };
  });
}

function timed({ plant, line, open, feeds }: Trial): Times {
  const build = (feed: Feed) => buildNetwork(ws, plant, open, feed, line.water);
  const built = microseconds(BATCH, () => solveLine(lineOf(plant), open));
  const networks = feeds.map(build);
  const epanetSolved = microseconds(EPANET_BATCH, () => networks.map(solveNetwork));
  const solved = microseconds(BATCH, () => solveLine(line, open));
  const last = networks[networks.length - 1] ?? build('pump');
  last.project.openH();
  const epanetOpened = microseconds(EPANET_BATCH, () => solveOpened(last));
  last.project.closeH();
  for (const network of networks) network.project.close();
  const epanetBuilt = microseconds(1, () => {
    for (const feed of feeds) {
      const network = build(feed);
      solveNetwork(network);
      network.project.close();
    }
  });
  return { built, solved, epanetBuilt, epanetSolved, epanetOpened };
}

function microseconds(times: number, run: () => unknown): number {
  const start = performance.now();
  for (let i = 0; i < times; i++) run();
  return ((performance.now() - start) * 1000) / times;
}

function print(times: readonly Times[]): void {
  const of = (key: keyof Times) => times.map((time) => time[key]);
  const lines = [
    `${PLANTS} random plants (seed ${SEED}), ${ROUNDS} rounds, node ${process.version}`,
    row('with building', of('built'), of('epanetBuilt'), 50),
    row('without building', of('solved'), of('epanetSolved'), 20),
    row('EPANET laid out', of('solved'), of('epanetOpened'), null),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
}

/** Ratios are taken plant by plant: their median, and the bounds between which eight of ten lie. */
function row(name: string, ours: number[], theirs: number[], wanted: number | null): string {
  const ratios = ours.map((time, i) => (theirs[i] ?? 0) / time);
  const [low, middle, high] = [0.1, 0.5, 0.9].map((share) => quantile(ratios, share).toFixed(0));
  const times = `ours ${quantile(ours, 0.5).toFixed(1)} µs, EPANET ${quantile(theirs, 0.5).toFixed(0)} µs`;
  const goal = wanted === null ? '' : `, wanted ${wanted}`;
  return `${name}: ${times}; EPANET/ours ${middle} (${low} to ${high})${goal}`;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
}
