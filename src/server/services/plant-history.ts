import { toBar } from '../../../shared/hydraulics/units.ts';
import type { AnswerRow } from '../../store/tables.ts';
import { toAnswer } from './answer-rows.ts';

/** The answers a plant's history is made of. */
export const historyQuestions = ['plant', 'readings', 'work-done'] as const;

export interface HistoryReading {
  readonly at: string;
  readonly taps: unknown;
  readonly bar: Readonly<Record<string, number>>;
  readonly flowLpm?: number;
}

export interface WorkDone {
  readonly at: string;
  readonly job: string;
  readonly parts?: readonly string[];
}

/** Readings (in bar) and work from a plant's answers, in the order they were received. */
export function plantHistory(rows: readonly AnswerRow[]): {
  history: HistoryReading[];
  done: WorkDone[];
} {
  const history: HistoryReading[] = [];
  const done: WorkDone[] = [];
  for (const row of rows) {
    const { question, value } = toAnswer(row);
    if (typeof value !== 'object' || value === null) continue;
    const at = row.at ?? row.received_at;
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
