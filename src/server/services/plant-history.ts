import { toBar } from '../../../shared/hydraulics/units.ts';
import type { AnswerRow } from '../../store/tables.ts';
import { toAnswer } from './answer-rows.ts';

/** Measured beside the gauges; what upkeep makes of each, `gaugewalk due` knows. */
const measured = ['flow', 'shut-off', 'precharge', 'cycle-times', 'lamp-hours', 'water-test'];
/** The answers a plant's history is made of. */
export const historyQuestions = ['plant', 'readings', 'work-done', ...measured];

export interface HistoryReading {
  readonly at: string;
  readonly taps: unknown;
  readonly bar: Readonly<Record<string, number>>;
  readonly flowLpm?: number;
}

export interface Measured {
  readonly at: string;
  readonly question: string;
  readonly value: unknown;
}

export interface WorkDone {
  readonly at: string;
  readonly job: string;
  readonly parts?: readonly string[];
}

/** Readings (in bar), other measurements and work from a plant's answers, in the order they were received. */
export function plantHistory(rows: readonly AnswerRow[]): {
  history: (HistoryReading | Measured)[];
  done: WorkDone[];
} {
  const history: (HistoryReading | Measured)[] = [];
  const done: WorkDone[] = [];
  for (const row of rows) {
    const { question, value } = toAnswer(row);
    const at = row.at ?? row.received_at;
    if (measured.includes(question) && value !== null) history.push({ at, question, value });
    if (typeof value !== 'object' || value === null) continue;
    if (question === 'readings') {
      const reading = value as { taps: unknown; flowLpm?: number };
      history.push({
        at,
        taps: reading.taps,
        bar: pressuresInBar(value as Record<string, unknown>),
        ...(reading.flowLpm !== undefined && { flowLpm: reading.flowLpm }),
      });
    }
    if (question === 'work-done')
      done.push({ at, ...(value as { job: string; parts?: string[] }) });
  }
  return { history, done };
}

/** The gauges that were read; "unknown" ones are left out. */
function pressuresInBar(value: Record<string, unknown>): Record<string, number> {
  const bar: Record<string, number> = {};
  for (const [unit, inBar] of Object.entries(toBar)) {
    const pressures = value[unit];
    if (typeof pressures !== 'object' || pressures === null) continue;
    for (const [gauge, read] of Object.entries(pressures)) {
      if (typeof read === 'number') bar[gauge] = inBar(read);
    }
  }
  return bar;
}
