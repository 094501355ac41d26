import { m3sToLpm } from '../../shared/hydraulics/units.ts';
import type { Random } from './random.ts';
import { drawdownL, lossClosedLpm, oneTap, restingPa, tapLpm } from './running.ts';
import { cleanFlow, type World } from './world.ts';

/** What somebody hears of the pump with a tap open, from the line as it really runs. */
export function heardOpen({ condition, plant, weakTap }: World, random: Random): string {
  if (condition.gives) return random.chance(0.94) ? condition.gives : 'silent';
  const solution = oneTap(condition, weakTap);
  const lpm = tapLpm(condition, weakTap);
  if (solution.running === 'off') return lpm < 0.5 ? 'silent' : 'weak-steady';
  if (solution.cycle) {
    const { offS } = solution.cycle;
    // A long rest is easily taken for a pump that does not run, or a run for steady running.
    if (offS > 120 && random.chance(0.5)) return random.chance(0.7) ? 'steady' : 'silent';
    if (random.chance(0.2)) return 'cycles';
    return offS * Math.exp(random.normal(0.25)) >= 15 ? 'cycles-slow' : 'cycles-fast';
  }
  if (lpm < 0.2) return random.chance(0.6) ? 'runs-dry' : 'weak-steady';
  const share = lpm / cleanFlow(plant);
  return share * Math.exp(random.normal(0.15)) < 0.6 ? 'weak-steady' : 'steady';
}

/** What the pump does with all taps shut, watched for about a quarter of an hour at the most. */
export function heardClosed({ condition }: World, random: Random): string {
  const { line, gives, neverStops, waterlogged } = condition;
  if (gives === 'runs-dry') return random.chance(0.85) ? 'never-stops' : 'stays-off';
  if (gives === 'hums')
    return random.weighted([
      ['stays-off', 6],
      ['short-bursts', 3],
      ['never-stops', 1],
    ] as const);
  if (gives || !line.pump) return 'stays-off';
  if (neverStops || line.control.kind === 'none') return 'never-stops';
  const rest = restingPa(condition);
  if (!rest) return 'never-stops';
  const lostLpm = lossClosedLpm(condition, (rest.lowPa + rest.highPa) / 2);
  if (lostLpm === 0) return waterlogged && random.chance(0.15) ? 'short-bursts' : 'stays-off';
  if (line.control.kind === 'flow-controller' && lostLpm > m3sToLpm(line.control.minFlowM3s))
    return 'never-stops';
  if (line.control.kind === 'variable-speed' && lostLpm > 2) return 'never-stops';
  const minutes = drawdownL(line, rest.lowPa, rest.highPa) / lostLpm;
  return minutes * Math.exp(random.normal(0.5)) < 15 ? 'short-bursts' : 'stays-off';
}

/** What people say of the line itself: no table says how often. They complain of the weakest outlet, whichever is tried later. */
export function heardComplaint(world: World, random: Random): string[] {
  const { condition, plant, faults } = world;
  const weakest = faults.sought.some(({ cause }) => cause === 'outlet-restricted');
  const { cycle } = oneTap(condition, weakest);
  const lpm = tapLpm(condition, weakest);
  const share = lpm / cleanFlow(plant);
  const fast = cycle !== null && cycle.offS < 15;
  const closed = heardClosed(world, random);
  const none = condition.gives !== null || lpm < 0.3;
  const restless = { 'stays-off': fast ? 0.2 : 0, 'short-bursts': 0.7, 'never-stops': 0.4 };
  const chances: Record<string, number> = {
    'no-water': none ? (lpm > 0.5 ? 0.6 : 0.94) : 0,
    weak: none ? 0 : 0.92 / (1 + (share / 0.62) ** 8),
    pulsing: Math.max(fast ? 0.6 : 0, condition.unsteadyShare > 0 ? 0.5 : 0),
    'pump-restless': restless[closed as keyof typeof restless] ?? 0,
    'too-high': share > 1.25 ? 0.5 : 0,
  };
  return Object.keys(chances).filter((item) => random.chance(chances[item] ?? 0));
}
