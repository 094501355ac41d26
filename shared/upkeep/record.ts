import { tellsOfWork } from '../case/work-done.ts';
import { toBar } from '../hydraulics/units.ts';

/** Measured beside the gauges; what upkeep makes of each, due dates know. */
const measured = ['flow', 'shut-off', 'precharge', 'cycle-times', 'lamp-hours', 'water-test'];
/** The questions whose answers a plant's record is made of. */
export const recordQuestions = ['plant', 'readings', 'work-done', ...measured];

/** The gauges as once read, pressures in bar; those that could not be read are left out. */
export interface GaugesRead {
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

interface Answered {
  readonly question: string;
  readonly value: unknown;
  readonly at: string;
}

/** What answers say of a plant over time, in their order: gauges read, other measurements, work done. */
export function recordFrom(answers: readonly Answered[]): {
  history: (GaugesRead | Measured)[];
  done: WorkDone[];
} {
  const history: (GaugesRead | Measured)[] = [];
  const done: WorkDone[] = [];
  for (const { question, value, at } of answers) {
    if (measured.includes(question) && value !== null) history.push({ at, question, value });
    if (typeof value !== 'object' || value === null) continue;
    if (question === 'readings') {
      const reading = value as { readonly taps: unknown; readonly flowLpm?: number };
      history.push({
        at,
        taps: reading.taps,
        bar: pressuresInBar(value as Readonly<Record<string, unknown>>),
        ...(reading.flowLpm !== undefined && { flowLpm: reading.flowLpm }),
      });
    }
    if (tellsOfWork({ question, value })) {
      const { job, parts } = value as Omit<WorkDone, 'at'>;
      done.push({ at, job, ...(parts && { parts }) });
    }
  }
  return { history, done };
}

function pressuresInBar(value: Readonly<Record<string, unknown>>): Record<string, number> {
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
