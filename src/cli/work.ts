import type { CAC } from 'cac';
import { audiences } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import { localDay } from '../../shared/common/local-time.ts';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { dangerSigns } from '../../shared/interview/danger.ts';
import type { Field } from '../../shared/interview/form.ts';
import { typingOf, workCommands } from '../../shared/interview/reply.ts';
import { replay } from '../../shared/work/apply.ts';
import { holesOf } from '../../shared/work/holes.ts';
import { type JobAtHand, openJob, refuseUnsafe, type Wanted } from '../../shared/work/job.ts';
import { caseWith, recordOf, type WorkRecord } from '../../shared/work/record.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import { linePerson } from './ask/lines.ts';
import { mannerOf } from './ask/manner.ts';
import { plainTelling, talk } from './ask/talk.ts';
import { inFile, parseCase } from './case-file.ts';
import { nameOf, readJson } from './json-file.ts';
import { DEFAULT_FILE, freeFile, quoted } from './kept-file.ts';
import { oneOf } from './one-of.ts';
import { wrap } from './show/wrap.ts';
import { type UnitOptions, withUnits } from './units.ts';
import { type SpokenWork, workSay } from './work/knowledge.ts';
import { endText, headText } from './work/show.ts';
import { type Around, holesFor, walk } from './work/walk.ts';
import type { World } from './world.ts';

interface WorkOptions extends UnitOptions {
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
async function runWork(
  world: World,
  knowledge: SpokenWork,
  path: string,
  options: WorkOptions,
): Promise<number> {
  const around = aroundOf(world, knowledge, options);
  const { manner } = around;
  const { say, person } = manner;
  const day = localDay(world.now());
  const file = nameOf(path);
  const input = await readJson(world, path);
  const kept = await keptIn(world, options);
  const audience = oneOf('--for', options.for, audiences);
  const open = (theCase: Case, parts: readonly string[]) =>
    openJob(theCase, { job: options.job ?? kept?.job, parts }, knowledge, day, manner.units);
  const part = options.part ?? kept?.part;
  let job: JobAtHand | null = inFile(file, () => {
    const theCase = { ...parseCase(input), ...(audience && { audience }) };
    return open(theCase, part === undefined || part === null ? [] : [part]);
  });
  if (!job || job.before.stopped) {
    person.say(
      wrap(job ? say('danger-stop', { call: job.before.stopped?.call ?? '' }) : say('not-to-do')),
    );
    return 0;
  }
  let caseFile = options.case;
  for (let begun = kept?.events ?? []; job; begun = []) {
    const record = await doJob(job, begun, file, around, options);
    const theCase = caseWith(job.theCase, record.answers);
    if (record.answers.length > 0 && world.interactive) caseFile ??= freeFile(DEFAULT_FILE, world);
    if (caseFile !== undefined) {
      world.writeText(caseFile, `${JSON.stringify(theCase, null, 2)}\n`);
      person.say(wrap(say('saved', { file: quoted(caseFile) })));
    }
    if (options.json) world.out(`${JSON.stringify(record, null, 2)}\n`);
    const next: Wanted = { job: record.job, parts: record.nextParts, cause: job.cause };
    const goesOn = await offersNext(record, job, around);
    job = goesOn ? openJob(theCase, next, knowledge, day, manner.units) : null;
  }
  return 0;
}

function aroundOf(world: World, knowledge: SpokenWork, options: UnitOptions): Around {
  const { rules, words } = knowledge;
  const typing = typingOf(words, dangerSigns(rules, words), workCommands);
  // Numbers and lines at a terminal too: a wet hand that slips on Enter must not choose the first answer.
  const person = linePerson(world);
  const manner = mannerOf(person, typing, workSay(knowledge), options, knowledge.language);
  return { world, knowledge, manner };
}

/** Where a job begun is kept by somebody at a terminal who named no file. */
const DEFAULT_RECORD = 'gaugewalk-work.json';

/** One job on one part, from its head to what it came to. */
async function doJob(
  job: JobAtHand,
  begun: readonly WorkEvent[],
  file: string,
  around: Around,
  { record }: WorkOptions,
): Promise<WorkRecord> {
  const { world, knowledge, manner } = around;
  const { context, part } = job;
  refuseUnsafe(context);
  manner.person.say(headText(job, holesFor(job, around).part ?? '', knowledge, manner.say));
  const keep = (happened: readonly WorkEvent[], into: string) => {
    const kept: Kept = { job: context.sheet.job, part, events: happened };
    world.writeText(into, `${JSON.stringify(kept, null, 2)}\n`);
  };
  const events = await walk(job, begun, around, (happened) => {
    if (record !== undefined) keep(happened, record);
  });
  const state = replay(context, events, job.advice);
  const came = recordOf(job, state, events, knowledge, localDay(world.now()));
  manner.person.say(endText(came, job, file, knowledge, manner));
  const isOpen = came.ended === null && events.length > begun.length;
  if (isOpen && (record !== undefined || world.interactive)) {
    const into = record ?? freeFile(DEFAULT_RECORD, world);
    if (record === undefined) keep(events, into);
    const holes = { case: quoted(file), record: quoted(into) };
    manner.person.say(wrap(manner.say('record-kept', holes)));
  }
  return came;
}

/** Whether the person goes on with the next part that the plan names for the same job. */
async function offersNext(record: WorkRecord, job: JobAtHand, around: Around): Promise<boolean> {
  const { knowledge, manner } = around;
  const { say, units } = manner;
  const index = job.plant.line.findIndex(({ id }) => id === record.nextParts[0]);
  if (index < 0) return false;
  const { by } = job.context.sheet;
  const part = holesOf(job.plant, index, by, knowledge.workWords, units).part ?? '';
  const text = say(record.proof?.outcome === 'cured' ? 'next-part-good' : 'next-part', { part });
  const option = (id: string) => ({ id, label: say(id), alsoSaid: say(`said-${id}`).split(' | ') });
  const field: Field = { kind: 'one', key: 'next', text, options: [option('yes'), option('no')] };
  const outcome = await talk(field, text, plainTelling, manner);
  return outcome.kind === 'filled' && outcome.value === 'yes';
}

/** What a record file holds. */
interface Kept {
  readonly job: string;
  readonly part: string | null;
  readonly events: readonly WorkEvent[];
}

/** A job begun earlier; null when there is no such file yet. */
async function keptIn(world: World, { record, job }: WorkOptions): Promise<Kept | null> {
  if (record === undefined || !world.exists(record)) return null;
  const kept = (await readJson(world, record)) as Partial<Kept> | null;
  if (typeof kept?.job !== 'string' || !Array.isArray(kept.events)) {
    throw new InputError(record, 'holds no record of work; name another file with --record');
  }
  if (job !== undefined && job !== kept.job) {
    throw new InputError(
      record,
      `is the record of ${kept.job}; name another file with --record for ${job}`,
    );
  }
  return { job: kept.job, part: kept.part ?? null, events: kept.events };
}

/** Adds `work` to the command line. */
export function registerWork(cli: CAC, world: World, knowledge: SpokenWork): void {
  const say = workSay(knowledge);
  withUnits(cli.command('work <case>', say('help-work')), say)
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
