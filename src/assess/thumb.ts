import { segmentsOf } from '../../shared/plant/segments.ts';
import type { Step } from './cure.ts';
import type { Random } from './random.ts';
import { readGauges } from './readings.ts';
import { usualParts } from './usual-parts.ts';
import { cleanFlow, type World } from './world.ts';

/** What the rule of thumb names, and does. */
export interface Thumb {
  readonly cause: string;
  readonly steps: readonly Step[];
}

/** A stage that costs more than this is "blocked", and a pump that gives less than this is "weak" (common practice). */
const BLOCKED_BAR = 0.5;
const WEAK_BAR = 1.5;

/**
 * Strategy (c): the gauges alone. The stretch between two gauges that costs most is changed; nothing costs much and
 * the pressure is low: the pump's side; pressure is good: the outlets. Then the usual parts. Null under two gauges.
 */
export function thumb(world: World, random: Random): Thumb | null {
  const ids = world.plant.line.flatMap((p) => (p.kind === 'gauge' ? [p.id] : []));
  if (ids.length < 2) return null;
  const read = (state: 'closed' | { open: number }) =>
    (readGauges(world, state, ids, random) as { bar: Record<string, number> }).bar;
  const shut = read('closed');
  const open = read({ open: 1 });
  const drops = segmentsOf(world.plant).flatMap(({ from, to, parts }) => {
    if (from === null || to === null) return [];
    const drop = (open[from] ?? 0) - (open[to] ?? 0) - ((shut[from] ?? 0) - (shut[to] ?? 0));
    return [{ parts, drop }];
  });
  const worst = drops.reduce((a, b) => (b.drop > a.drop ? b : a));
  const last = open[ids.at(-1) ?? ''] ?? 0;
  const rest = usualParts(world);
  const then = (cause: string, ...steps: Step[]): Thumb => ({
    cause,
    steps: [...steps, ...rest.filter(({ job }) => !steps.some((s) => s.job === job))],
  });
  if (worst.drop > BLOCKED_BAR) {
    const filters = world.plant.line.flatMap((p) =>
      p.kind === 'filter' && worst.parts.includes(p.id) ? [p] : [],
    );
    const steps = filters.map((p) => ({ job: `change-${p.medium}`, parts: [p.id] }));
    const [first] = filters;
    return then(first ? `${first.medium}-blocked` : 'valve-part-closed', ...steps);
  }
  if (last < WEAK_BAR && cleanFlow(world.plant) > 0) {
    return then(
      'pump-worn',
      { job: 'set-precharge' },
      { job: 'change-control' },
      { job: 'clean-strainer' },
      { job: 'change-pump' },
    );
  }
  return then('outlet-restricted', { job: 'clean-outlets' });
}
