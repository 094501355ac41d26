import type { CAC } from 'cac';
import { type Audience, audiences } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import { fill } from '../../shared/diagnosis/say.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import type { WorkEvent, WorkState } from '../../shared/work/state.ts';
import { minutesOf, viewOf } from '../../shared/work/view.ts';
import { inFile, parseCase } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, readJson } from './json-file.ts';
import { wrap } from './show/wrap.ts';
import { caseWith, endText, recordOf } from './work/outcome.ts';
import { adviceTexts, openJob, type WorkKnowledge, type WorkSession } from './work/session.ts';
import { hintFor, stepText } from './work/show.ts';
import { readTyped } from './work/typed.ts';
import { dayOf, timeOf, type World } from './world.ts';

export interface WorkOptions {
  readonly job?: string | undefined;
  readonly part?: string | undefined;
  readonly for?: string | undefined;
  /** what is done is kept here, and gone on from */
  readonly record?: string | undefined;
  /** the case with what was done goes here */
  readonly case?: string | undefined;
  readonly json?: boolean | undefined;
}

/** `gaugewalk work CASE [--job JOB]`: a job step by step, with a person at a terminal or behind a pipe. */
export async function runWork(
  world: World,
  knowledge: WorkKnowledge,
  path: string,
  options: WorkOptions,
): Promise<number> {
  const say = workSay(knowledge);
  const today = dayOf(world.now());
  const input = await readJson(world, path);
  const wanted = { job: options.job, part: options.part, audience: audienceOf(options.for) };
  const { session, theCase } = inFile(nameOf(path), () => {
    const theCase = parseCase(input);
    return { theCase, session: openJob(theCase, wanted, knowledge, today) };
  });
  const print = (text: string) => world.out(`${text}\n`);
  if (session?.before.stopped) {
    print(wrap(say('danger-stop', { call: session.before.stopped.call })));
    return 0;
  }
  if (!session) {
    print(wrap(say('not-to-do')));
    return 0;
  }
  print(headText(session, knowledge, say));
  const begun = await eventsIn(world, options.record);
  const events = await converse(session, begun, world, knowledge, say, options.record);
  const state = replay(session.context, events, session.advice);
  const record = recordOf(session, state, events, knowledge, today);
  print(`\n${endText(record, session, knowledge, say)}`);
  if (options.case !== undefined) {
    world.writeText(
      options.case,
      `${JSON.stringify(caseWith(theCase, record.answers), null, 2)}\n`,
    );
  }
  if (options.json) print(JSON.stringify(record, null, 2));
  return 0;
}

/** Asks until the job has ended or nobody is there any more. */
async function converse(
  session: WorkSession,
  begun: readonly WorkEvent[],
  world: World,
  knowledge: WorkKnowledge,
  say: Say,
  file: string | undefined,
): Promise<WorkEvent[]> {
  const { context, plant } = session;
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
  const dangers = Object.keys(knowledge.rules.dangers);
  const events = [...begun];
  let state = replay(context, events, session.advice, timeOf(world.now()));
  let isShown = false;
  for (;;) {
    const view = viewOf(context, state, knowledge.workWords, session.holes, session.audience);
    if (state.ended || !view.step) return events;
    if (!isShown) world.out(`${stepText(view, say, plant)}\n> `);
    isShown = true;
    const line = await world.nextLine();
    if (line === null) return events;
    const typed = readTyped(line, { step: view.step, gauges, dangers, taps: tapsBefore(session) });
    if (typed.kind === 'quit') return events;
    const event = eventOf(
      typed,
      view.step.id,
      lastTicked(events),
      timeOf(world.now()),
      state,
      dangers,
    );
    if (!event) {
      world.out(
        `${wrap(say('not-understood', { hint: `${hintFor(view, say, plant)} ${say('always-hint')}` }))}\n> `,
      );
      continue;
    }
    const next = apply(context, state, event);
    if (next.refused) {
      const needs = next.refused.needs
        .map((id) => knowledge.workWords.conditions[id] ?? id)
        .join(', ');
      world.out(
        `${wrap(needs === '' ? say('not-understood', { hint: say('always-hint') }) : say('refused', { needs }))}\n`,
      );
    } else events.push(event);
    const raised = next.advice.filter((hazard) => !state.advice.includes(hazard));
    for (const text of adviceTexts(raised, session, knowledge))
      world.out(`${wrap(say('drink-still', { text }))}\n`);
    if (state.advice.length > 0 && next.advice.length === 0) world.out(`${say('drink-free')}\n`);
    state = next;
    isShown = false;
    if (file !== undefined)
      world.writeText(
        file,
        `${JSON.stringify({ job: context.sheet.job, part: session.part, events }, null, 2)}\n`,
      );
  }
}

/** The event a typed line means; null when it means none. */
function eventOf(
  typed: ReturnType<typeof readTyped>,
  step: string,
  last: string | undefined,
  at: string,
  state: WorkState,
  dangers: readonly string[],
): WorkEvent | null {
  switch (typed.kind) {
    case 'done':
      return {
        ...{ step, at },
        ...(typed.answer !== undefined && { answer: typed.answer }),
        ...(typed.input !== undefined && { input: typed.input }),
      };
    case 'back':
      return last === undefined ? null : { takeBack: last, at };
    case 'lost':
      return state.made.includes(typed.what) || typed.what === 'depressurised'
        ? { lost: typed.what, at }
        : null;
    case 'danger':
      return dangers.includes(typed.what) ? { danger: [typed.what], at } : null;
    default:
      return null;
  }
}

function lastTicked(events: readonly WorkEvent[]): string | undefined {
  const last = events.at(-1);
  return last && 'step' in last ? last.step : undefined;
}

/** The tap state of the latest reading with water running: the same tap proves the work. */
function tapsBefore({ theCase }: WorkSession): unknown {
  const isOpen = (value: unknown): value is { taps: unknown } =>
    typeof value === 'object' && value !== null && 'taps' in value && value.taps !== 'closed';
  const latest = theCase.answers.findLast(
    ({ question, value }) => question === 'readings' && isOpen(value),
  )?.value;
  return isOpen(latest) ? latest.taps : { open: 1 };
}

function headText(session: WorkSession, { words }: WorkKnowledge, say: Say): string {
  const { sheet } = session.context;
  const head = say('job-head', {
    ...{
      name: words.jobs[sheet.job]?.name ?? sheet.job,
      minutes: minutesOf(session.context),
      by: say(`by-${sheet.by}`),
    },
  });
  const part =
    session.holes.part === undefined ? [] : [say('part-named', { part: session.holes.part })];
  return wrap([head, ...part, say('law-first')].join(' '));
}

/** Events of a job begun earlier; none when there is no such file yet. */
async function eventsIn(world: World, file: string | undefined): Promise<readonly WorkEvent[]> {
  if (file === undefined || !world.exists(file)) return [];
  const kept = await readJson(world, file);
  if (typeof kept === 'object' && kept !== null && 'events' in kept && Array.isArray(kept.events)) {
    return kept.events as WorkEvent[];
  }
  throw new InputError(file, 'holds no record of work; name another file with --record');
}

function audienceOf(given: string | undefined): Audience | undefined {
  if (given === undefined) return undefined;
  const found = audiences.find((audience) => audience === given);
  if (!found) throw new InputError('--for', `use one of ${audiences.join(', ')}`);
  return found;
}

/** Says phrases out of the words of the job sheets. */
function workSay({ workWords }: WorkKnowledge): Say {
  return (key, holes = {}) => fill(workWords.phrases[key] ?? key, holes);
}

/** Adds `work` to the command line. */
export function registerWork(cli: CAC, world: World, knowledge: WorkKnowledge): void {
  const say = workSay(knowledge);
  cli
    .command('work <case>', say('help-work'))
    .option('--job <job>', say('help-work-job'))
    .option('--part <part>', say('help-work-part'))
    .option('--for <audience>', say('help-work-for'))
    .option('--record <file>', say('help-work-record'))
    .option('--case <file>', say('help-work-case'))
    .option('--json', say('help-work-json'))
    .example('gaugewalk work case.json')
    .example('gaugewalk work case.json --job change-sediment --record work.json')
    .action((path: string, options: WorkOptions) => runWork(world, knowledge, path, options));
}
