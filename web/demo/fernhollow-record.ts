import type { PlantRecord } from '../brain/protocol.ts';

/**
 * A year of readings at the invented guesthouse, computed once with the project's own line: the fine sediment stage
 * loads from 9 to 20 times clean, is changed on 1 March, and loads again to 60 times by late November. G3 reads a tenth
 * low. By then the vessel has filled with water, and the pump starts every few seconds.
 */
const rounds: readonly (readonly [day: string, closed: Bar, open: Bar])[] = [
  ['2025-12-06', [3.4, 3.4, 3.3, 3.4], [2.7, 2.1, 2.0, 2.1]],
  ['2026-01-10', [3.3, 3.3, 3.2, 3.3], [2.7, 1.9, 1.8, 1.8]],
  ['2026-02-14', [3.4, 3.4, 3.3, 3.4], [2.7, 1.7, 1.5, 1.6]],
  ['2026-03-01', [3.4, 3.4, 3.3, 3.4], [2.7, 2.6, 2.4, 2.5]],
  ['2026-04-11', [3.5, 3.5, 3.4, 3.5], [2.7, 2.6, 2.4, 2.5]],
  ['2026-05-09', [3.4, 3.4, 3.3, 3.4], [2.7, 2.5, 2.3, 2.4]],
  ['2026-06-13', [3.3, 3.3, 3.2, 3.3], [2.7, 2.4, 2.2, 2.3]],
  ['2026-07-11', [3.4, 3.4, 3.3, 3.4], [2.7, 2.3, 2.1, 2.2]],
  ['2026-08-08', [3.4, 3.4, 3.3, 3.4], [2.7, 2.1, 1.9, 2.0]],
  ['2026-09-12', [3.5, 3.5, 3.4, 3.5], [2.7, 1.8, 1.6, 1.7]],
  ['2026-10-10', [3.4, 3.4, 3.3, 3.4], [2.7, 1.5, 1.3, 1.4]],
];
type Bar = readonly [number, number, number, number];

const gauges = ([G1, G2, G3, G4]: Bar) => ({ G1, G2, G3, G4 });

export const demoRecord: PlantRecord = {
  history: rounds.flatMap(([at, closed, open]) => [
    { at, taps: 'closed', bar: gauges(closed) },
    { at, taps: { open: 1 }, bar: gauges(open) },
  ]),
  done: [
    { at: '2026-03-01', job: 'change-sediment', parts: ['sed-1', 'sed-2'] },
    { at: '2026-03-01', job: 'change-carbon', parts: ['carbon-1'] },
  ],
};
