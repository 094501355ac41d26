import type { Answer } from '../../shared/case/answer.ts';

/**
 * The demo: an invented guesthouse whose fine sediment cartridge has loaded over the year and whose vessel has filled
 * with water. The answers a householder gave this morning, up to the gauges with one tap open.
 */
const at = '2026-11-25T08:10:00+01:00';

export const demoAnswers: readonly Answer[] = [
  { question: 'danger', value: [], at },
  { question: 'household', value: [], at },
  { question: 'complaint', value: ['weak', 'pulsing'], at },
  { question: 'onset', value: 'gradual', at },
  { question: 'recent-work', value: [], at },
  { question: 'pump-open', value: 'cycles-fast', at },
  { question: 'pump-closed', value: 'stays-off', at },
  { question: 'tank-level', value: 'half', at },
  {
    question: 'readings',
    value: { taps: 'closed', bar: { G1: 3.4, G2: 3.4, G3: 3.3, G4: 3.4 }, pump: 'off' },
    at,
  },
  {
    question: 'readings',
    value: { taps: { open: 1 }, bar: { G1: 2.7, G2: 0.9, G3: 0.7, G4: 0.8 } },
    at,
  },
].map((answer, i) => ({
  ...answer,
  answerId: `00000000-0000-4000-8000-${String(i).padStart(12, '0')}`,
}));
