import type { Step } from './cure.ts';
import type { World } from './world.ts';

/**
 * Strategy (b): the usual parts in the usual order, whatever the gauges show, by what was complained of. The order is
 * common practice of changing what is cheap and known first.
 */
export const USUAL_ORDER = {
  'no water': [
    'reset-pump-once',
    'restore-power',
    'change-sediment',
    'prime-pump',
    'change-control',
    'change-pump',
  ],
  pressure: [
    ...['change-sediment', 'change-carbon', 'clean-outlets', 'set-precharge', 'change-vessel'],
    ...['change-control', 'change-check-valve', 'clean-strainer', 'change-pump', 'find-leak'],
  ],
  water: [
    ...['change-sediment', 'change-carbon', 'change-lamp', 'flush-line'],
    ...['disinfect-tank', 'disinfect-line', 'clean-roof', 'desludge-tank'],
  ],
  alarm: ['change-lamp', 'clean-sleeve'],
  routine: ['change-sediment', 'change-carbon', 'change-lamp'],
} as const;

const SPEAKS_OF: Record<keyof typeof USUAL_ORDER, readonly string[]> = {
  'no water': ['no-water'],
  pressure: ['weak', 'pulsing', 'pump-restless', 'too-high', 'noise', 'leak', 'tank-drops'],
  water: ['smell', 'taste', 'look'],
  alarm: ['alarm'],
  routine: ['routine'],
};

export function usualParts({ complaint, plant }: World): Step[] {
  const jobs = new Set<string>();
  for (const [kind, order] of Object.entries(USUAL_ORDER)) {
    const words = SPEAKS_OF[kind as keyof typeof USUAL_ORDER];
    if (words.some((word) => complaint.includes(word))) for (const job of order) jobs.add(job);
  }
  const ids = (fits: (p: (typeof plant.line)[number]) => boolean) =>
    plant.line.filter(fits).map((p) => p.id);
  const needs: Record<string, string[]> = {
    'change-sediment': ids((p) => p.kind === 'filter' && p.medium === 'sediment'),
    'change-carbon': ids((p) => p.kind === 'filter' && p.medium === 'carbon'),
    'change-lamp': ids((p) => p.kind === 'uv'),
    'clean-sleeve': ids((p) => p.kind === 'uv'),
    'set-precharge': ids((p) => p.kind === 'vessel'),
    'change-vessel': ids((p) => p.kind === 'vessel'),
    'change-control': ids((p) => p.kind === 'pump'),
    'change-pump': ids((p) => p.kind === 'pump'),
    'reset-pump-once': ids((p) => p.kind === 'pump'),
    'prime-pump': ids((p) => p.kind === 'pump'),
    'change-check-valve': ids((p) => p.kind === 'pump'),
    'clean-strainer': ids((p) => p.kind === 'suction'),
  };
  return [...jobs].flatMap((job) => {
    const parts = needs[job];
    if (!parts) return [{ job }];
    if (parts.length === 0) return [];
    return job.startsWith('change-sediment') || job.startsWith('change-carbon')
      ? [{ job, parts }]
      : [{ job }];
  });
}
