import { type Case, diagnose } from '../../shared/diagnosis/diagnose.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm, paToBar } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import type { Part, Plant } from '../../shared/plant/schema.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import { openJob } from '../../shared/work/job.ts';
import { offered, waitOverAt } from '../../shared/work/next.ts';
import type { WorkRecord } from '../../shared/work/record.ts';
import type { SheetStep } from '../../shared/work/sheet.ts';
import { START, tried } from '../cli/world.ts';
import { rules, words, work } from './files.ts';
import { firstTick } from './first-tick.ts';

export const today = '2026-11-25';
const knowledge = { rules, words, work };

export interface Gauged {
  readonly bar: Readonly<Record<string, number>>;
  readonly flowLpm: number;
}

/** What somebody finds who does a job. */
export interface Found {
  readonly job?: string;
  readonly part?: string;
  /** read after the work; left out: nothing can be read */
  readonly closed?: Gauged;
  readonly open?: Gauged;
  /** how far the pressure fell in ten minutes, where that is looked at */
  readonly lostBar?: number;
  /** the answer given at a step, where it is not the first one */
  readonly says?: Readonly<Record<string, string>>;
}

/** The lines that a careful person types at `gaugewalk work`, from the first step of the job to its last. */
export function carefulLines(theCase: Case & { plant: Plant }, found: Found = {}): string[] {
  const wanted = { job: found.job, parts: found.part === undefined ? [] : [found.part] };
  const job = openJob(theCase, wanted, knowledge, today, siUnits);
  if (!job) throw new Error('there is nothing to do');
  const { context } = job;
  const lines: string[] = [];
  let state = replay(context, [], job.advice);
  let at = START.toISOString();
  for (let step = offered(context, state); step; step = offered(context, state)) {
    const tick = firstTick(step, found.says);
    lines.push(...linesAt(step, tick.answer, theCase.plant, found));
    at = waitOverAt(state, step) ?? at;
    state = apply(context, state, { ...tick, at });
  }
  return lines;
}

function linesAt(
  step: SheetStep,
  answer: string | undefined,
  plant: Plant,
  { closed, open, lostBar }: Found,
): string[] {
  const hasPump = plant.line.some(({ kind }) => kind === 'pump');
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
  const read = (given: Gauged | undefined) => gauges.map((id) => String(given?.bar[id] ?? 'u'));
  const ticked = answer ?? 'done';
  switch (step.input) {
    case 'readings-closed':
      return read(closed);
    case 'readings-open':
      return [...read(open), ...(open && hasPump ? ['yes'] : [])];
    case 'flow':
      return open ? [String(open.flowLpm), '60'] : ['u'];
    case 'value':
      if (answer !== undefined && step.answers[answer]?.noEntry) return [answer];
      return [...(answer === undefined ? [] : [answer]), ...figuresAt(step, lostBar)];
    case 'words':
      return [ticked, 'all well'];
    default:
      return [ticked];
  }
}

/** What is typed for a test: a pressure, or how far one fell and in how many minutes. */
const figuresAt = ({ question = '', asFound }: SheetStep, lostBar = 1.8): string[] => {
  if (asFound) return ['0.4'];
  return rules.questions[question]?.kind === 'pressure-loss' ? [String(lostBar), '10'] : ['1.8'];
};

/** Units known beforehand, so that no line is spent on them. */
export const inBar = ['--pressure', 'bar', '--volume', 'L'];

export interface Worked {
  readonly out: string;
  readonly files: Readonly<Record<string, string>>;
  /** the case with what was done, as written by --case */
  readonly after: { answers: { question: string; value: unknown }[] };
  /** the records, as written by --json: one for each part worked on */
  readonly records: readonly WorkRecord[];
}

/** Runs `gaugewalk work case.json` on files in memory; lines as they are typed. */
export async function worked(
  theCase: object,
  lines: readonly string[],
  options: readonly string[] = [],
  kept: Record<string, string> = {},
): Promise<Worked> {
  const { out, err, files } = await tried(
    ['work', 'case.json', '--case', 'after.json', '--json', ...inBar, ...options],
    { files: { 'case.json': JSON.stringify(theCase), ...kept }, lines },
  );
  if (err !== '') throw new Error(err);
  return { out, files, after: JSON.parse(files['after.json'] ?? '{}'), records: recordsIn(out) };
}

/** The records among what was printed. */
export const recordsIn = (out: string): WorkRecord[] =>
  [...out.matchAll(/^\{\n[\s\S]*?^\}$/gm)].map(([text]) => JSON.parse(text) as WorkRecord);

/** What the gauges of a plant show with so many taps open, by solving the line; to the nearest 0.05 bar. */
export function gaugesOf(plant: Plant, open: number): Gauged {
  const { plant: resolved } = resolvePlant(plant);
  const { points, flowM3s } = solveLine(lineOf(resolved), open === 0 ? 'closed' : { open });
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
  const bar = Object.fromEntries(
    points
      .filter(({ after }) => gauges.includes(after))
      .map(({ after, pa }) => [after, Math.round(paToBar(pa) * 20) / 20]),
  );
  return { bar, flowLpm: Math.round(m3sToLpm(flowM3s) * 10) / 10 };
}

/** The plant with one part changed. */
export function withPart(plant: Plant, id: string, change: (part: Part) => Part): Plant {
  return { ...plant, line: plant.line.map((part) => (part.id === id ? change(part) : part)) };
}

export const diagnosed = (theCase: Case) => diagnose(theCase, rules, words, today);
