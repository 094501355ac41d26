import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm, paToBar } from '../../shared/hydraulics/units.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import type { Part, Plant } from '../../shared/plant/schema.ts';
import { runWork, type WorkOptions } from '../../src/cli/work.ts';
import type { World } from '../../src/cli/world.ts';
import { rules, words, work, workWords } from './files.ts';

const knowledge = { rules, words, work, workWords };
export const today = '2026-11-25';

export interface Worked {
  readonly out: string;
  readonly files: Readonly<Record<string, string>>;
  /** the case with what was done, as written by --case */
  readonly after: { answers: { question: string; value: unknown }[] };
  /** the record, as written by --json */
  readonly record: ReturnType<typeof JSON.parse>;
}

/** Somebody behind a pipe: looks at the last question and types one line, or null when they have gone. */
export type Typist = (asked: string, screen: string) => string | null;

/** Runs `gaugewalk work case.json` with files in memory, a typist and a clock that walks on a minute a line. */
export async function worked(
  theCase: object,
  typist: Typist,
  options: WorkOptions = {},
  kept: Record<string, string> = {},
): Promise<Worked> {
  const files: Record<string, string> = { 'case.json': JSON.stringify(theCase), ...kept };
  const out: string[] = [];
  let minute = 0;
  const world: World = {
    interactive: false,
    readText: async (path) => files[path] ?? '',
    out: (text) => void out.push(text),
    err: (text) => void out.push(text),
    nextLine: async () => {
      minute += 1;
      if (minute > 400) throw new Error(`no end: ${out.slice(-6).join('')}`);
      return typist(out.at(-1) ?? '', out.join(''));
    },
    exists: (path) => path in files,
    writeText: (path, text) => {
      files[path] = text;
    },
    now: () => new Date(Date.UTC(2026, 10, 25, 9, minute)),
  };
  await runWork(world, knowledge, 'case.json', { case: 'after.json', json: true, ...options });
  const text = out.join('');
  const json = text.slice(text.lastIndexOf('\n{\n') + 1);
  return {
    out: text,
    files,
    after: JSON.parse(files['after.json'] ?? '{}'),
    record: json.startsWith('{') ? JSON.parse(json) : null,
  };
}

/** A careful person: ticks what is done, gives the first answer unless `says` has a better one, types these readings. */
export function careful(given: {
  readonly closed?: Readonly<Record<string, number>>;
  readonly open?: Readonly<Record<string, number>>;
  readonly flow?: string;
  readonly says?: readonly string[];
}): Typist {
  const typed = (bar: Readonly<Record<string, number>> | undefined) =>
    bar
      ? Object.entries(bar)
          .map(([id, value]) => `${id}=${value}`)
          .join(' ')
      : 'unknown';
  let readings = 0;
  return (asked) => {
    const choice = (given.says ?? []).find((label) => asked.includes(label));
    if (asked.includes('Type the number or the words')) return choice ?? '1';
    if (asked.includes('Type the gauges'))
      return typed(readings++ % 2 === 0 ? given.closed : given.open);
    if (asked.includes('litres and seconds, such')) return given.flow ?? 'unknown';
    if (asked.includes('Type the number in bar')) return '1.8';
    if (asked.includes('short note')) return 'all well';
    return 'done';
  };
}

/** What the gauges of a plant show with so many taps open, by solving the line; to the nearest 0.05 bar. */
export function gaugesOf(
  plant: Plant,
  open: number,
): { bar: Record<string, number>; flowLpm: number } {
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

export const diagnosed = (theCase: Parameters<typeof diagnose>[0]) =>
  diagnose(theCase, rules, words, today);
