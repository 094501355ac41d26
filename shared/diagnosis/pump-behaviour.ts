import { below } from './normal.ts';
import { cycleSeconds, RUNS_ON, reachesTop, type Source } from './source.ts';

/**
 * What is heard of the pump, from the solved line: chance of each answer of the two pump questions. A listener is wrong
 * now and then (common practice), so no answer is impossible.
 */
const MISHEARD = 0.015;
/** The contract's line between slow and fast cycling, and how sharply people tell it. */
const SLOW_S = 15;
const SLOW_SPREAD = 0.4;
/** Starts closer together than this are noticed with all taps shut. */
const NOTICED_MINUTES = 15;
/** A vessel that gives less than about this starts the pump at any dribble that nobody calls a leak (common practice). */
const HARDLY_ANY = { litres: 0.5, spread: 0.5 };
const BY_ITSELF = { sound: 0.02, besides: 0.13 };

/** Under about this share of a sound plant's flow people call it weak. */
const WEAK_SHARE = 0.55;

/** Said by whom the times are not known to: no answer of its own beside the two that say more. */
export const SAYS_LESS: ReadonlySet<string> = new Set(['cycles']);

const heard = (chance: number) => MISHEARD + (1 - 3 * MISHEARD) * chance;

/** With a tap open and flow j running, where a sound plant would pass `cleanLpm`. */
export function openChance(source: Source, j: number, answer: string, cleanLpm: number): number {
  if (source.gives) return heard(answer === source.gives ? 0.92 : 0.02);
  const lpm = source.lpm[j] ?? 0;
  const cycles = source.cycling[j] ?? 0;
  const { offS } = cycleSeconds(source, Math.max(0.05, lpm));
  const slow = below(Math.log(offS / SLOW_S) / SLOW_SPREAD);
  const weak = lpm === 0 ? 1 : 1 / (1 + (lpm / (WEAK_SHARE * cleanLpm)) ** 6);
  switch (answer) {
    case 'cycles':
      return heard(cycles);
    case 'cycles-slow':
      return heard(cycles * slow);
    case 'cycles-fast':
      return heard(cycles * (1 - slow));
    case 'steady':
      return heard((1 - cycles) * (1 - weak));
    case 'weak-steady':
      return heard((1 - cycles) * weak);
    // A line that passes nothing keeps a stopped pump silent, and a running one runs without water.
    case 'silent':
      return heard(lpm === 0 ? 0.6 * cycles : 0);
    case 'runs-dry':
      return heard(lpm < 0.3 ? 0.5 * (1 - cycles) : 0);
    default:
      return heard(0);
  }
}

/** With all taps shut. */
export function closedChance(source: Source, answer: string): number {
  const chances = closedChances(source);
  return heard(chances[answer] ?? 0);
}

function closedChances(source: Source): Record<string, number> {
  if (source.gives === 'runs-dry')
    return { 'never-stops': 0.85, 'stays-off': 0.1, 'short-bursts': 0.05 };
  if (source.gives === 'hums') return { 'stays-off': 0.6, 'short-bursts': 0.3, 'never-stops': 0.1 };
  if (source.gives) return { 'stays-off': 1 };
  if (source.neverStops) return { 'never-stops': 1 };
  const leak = source.leakLpm + source.backLeakLpm;
  const tooWeak = RUNS_ON[source.control] * (1 - reachesTop(source));
  const tooMuch =
    source.control === 'flow-controller' && leak > 0
      ? below(Math.log(leak / source.minFlowLpm) / 0.3)
      : 0;
  const never = source.control === 'none' ? 1 : Math.max(tooWeak, tooMuch);
  const byItself =
    BY_ITSELF.sound +
    BY_ITSELF.besides * below(Math.log(HARDLY_ANY.litres / source.drawdownL) / HARDLY_ANY.spread);
  const noticed =
    leak > 0 ? below(Math.log(NOTICED_MINUTES / (source.drawdownL / leak)) / 0.7) : byItself;
  return {
    'never-stops': never,
    'short-bursts': (1 - never) * noticed,
    'stays-off': (1 - never) * (1 - noticed),
  };
}
