import { parseValue } from '../../../shared/case/values.ts';
import { localDay } from '../../../shared/common/local-time.ts';
import { diagnose } from '../../../shared/diagnosis/diagnose.ts';
import type { Result, Told } from '../../../shared/diagnosis/result.ts';
import { dangerQuestion } from '../../../shared/interview/danger.ts';
import type { Field } from '../../../shared/interview/form.ts';
import type { InterviewEvent } from '../../../shared/interview/machine.ts';
import { givenOf, type Step, stepKey } from '../../../shared/interview/step.ts';
import { DEFAULT_FILE, freeFile, quoted } from '../kept-file.ts';
import type { Knowledge } from '../knowledge.ts';
import { resultText, stopText } from '../show/result.ts';
import { wrap } from '../show/wrap.ts';
import type { World } from '../world.ts';
import { fill } from './fill.ts';
import { caseOf, type Session, saveCase, send } from './session.ts';
import { before, givenText, type Todo, todoOf } from './step.ts';
import { type Manner, type Outcome, plainTelling, type Telling, talk } from './talk.ts';

/** What an interview needs around it. */
export interface Around {
  readonly world: World;
  readonly knowledge: Knowledge;
  readonly manner: Manner;
}

/** Asks until nothing more is worth asking, somebody must be called, or the person has had enough. */
export async function converse(start: Session, around: Around): Promise<void> {
  const { manner } = around;
  const told = new Set<string>();
  let session = start;
  for (;;) {
    const result = judged(session, around);
    if (result.stopped) {
      manner.person.say(stopText(result, caseOf(session), around.knowledge));
      const lifted = await afterStop(session, around);
      if (!lifted) return bye(session, result, around);
      session = lifted;
      continue;
    }
    mind(result, told, manner);
    const todo = todoOf(session, result, around.knowledge, manner.say);
    const outcome = todo
      ? await ask(todo, session, result, around)
      : await atTheEnd(session, result, around);
    const went = await follow(outcome, todo, session, around);
    if (went === 'end') {
      if (todo) manner.person.say(shown(session, result, around));
      return bye(outcome.kind === 'end' ? kept(session, around) : session, result, around);
    }
    if (went === 'saved') return;
    session = went;
  }
}

function judged(session: Session, { knowledge, world, manner }: Around): Result {
  const { rules, words } = knowledge;
  return diagnose(caseOf(session), rules, words, localDay(world.now()), manner.units);
}

function shown(session: Session, result: Result, { knowledge, manner }: Around): string {
  return resultText(result, caseOf(session), knowledge, manner.units).trimEnd();
}

/** A caution, or what is odd about a reading, is said once, as soon as it holds, before the next step. */
function mind({ cautions, warnings }: Result, told: Set<string>, { person, say }: Manner): void {
  const fresh = (all: readonly Told[]): readonly string[] => {
    const texts = all.map(({ text }) => text).filter((text) => !told.has(text));
    for (const text of texts) told.add(text);
    return texts;
  };
  const lines = fresh(cautions).map((text) => wrap(text, '  - '));
  if (lines.length > 0) person.say([say('heading-cautions'), ...lines].join('\n'));
  for (const text of fresh(warnings.filter(({ about }) => about === 'readings'))) {
    person.say(wrap(text, '  '));
  }
}

type Said =
  | { readonly kind: 'events'; readonly events: readonly InterviewEvent[] }
  | { readonly kind: 'enough' }
  | Outcome;

/** Puts one question; an answer that cannot be is told why and asked again. */
async function ask(todo: Todo, session: Session, result: Result, around: Around): Promise<Said> {
  const { knowledge, manner } = around;
  const { rules, words } = knowledge;
  const { say, person } = manner;
  const job = rules.questions[todo.step.question]?.job;
  if (job) person.say(wrap(say('ask-by-sheet', { job: words.jobs[job]?.name ?? job }), '  '));
  if (todo.before) {
    const answer = givenText(todo.before, knowledge, manner.units);
    person.say(wrap(say('ask-changing', { answer }), '  '));
  }
  const commands = ['why', 'how', 'unknown', 'back', 'change', 'result', 'save'] as const;
  const telling: Telling = {
    why: todo.why,
    how: words.questions[todo.step.question]?.showMe ?? null,
    result: () => shown(session, result, around),
    commands: todo.before ? ['keep', ...commands] : commands,
  };
  const { question } = todo.step;
  const outcome = await fill(todo.form, todo.text, telling, manner, (value) => {
    parseValue(question, value, rules, session.plant, localDay(around.world.now()), '');
  });
  if (outcome.kind === 'unknown') {
    return { kind: 'events', events: [{ type: 'UNKNOWN', step: todo.step }] };
  }
  if (outcome.kind !== 'filled') return outcome;
  return {
    kind: 'events',
    events: [{ type: 'ANSWER', answer: { question, value: outcome.value } }],
  };
}

/** Nothing more is worth asking: the result, and a last chance to change something. */
async function atTheEnd(session: Session, result: Result, around: Around): Promise<Said> {
  const { manner } = around;
  manner.person.say(shown(session, result, around));
  return wait(manner.say('ask-end'), manner);
}

/** Enter ends; whatever else is understood is followed. */
async function wait(text: string, manner: Manner): Promise<Said> {
  const enter: Field = { kind: 'many', key: 'end', text, options: [] };
  const telling: Telling = { ...plainTelling, commands: ['back', 'change', 'save'] };
  const outcome = await talk(enter, text, telling, manner);
  return outcome.kind === 'filled' || outcome.kind === 'unknown' ? { kind: 'enough' } : outcome;
}

/** After a danger sign only that answer can be taken back; null: it stands. */
async function afterStop(session: Session, { manner, world, knowledge }: Around) {
  const said = await wait(manner.say('ask-stopped-end'), manner);
  if (said.kind !== 'back' && said.kind !== 'change') return null;
  const step = { question: dangerQuestion(knowledge.rules) };
  return send(session, { type: 'TAKE_BACK', step }, world);
}

/** Where what was said leads. */
async function follow(
  said: Said,
  todo: Todo | null,
  session: Session,
  around: Around,
): Promise<Session | 'end' | 'saved'> {
  const { world, knowledge, manner } = around;
  const given = givenOf(session.interview.context.answers, knowledge.rules);
  const change = (step: Step) => send(session, { type: 'CHANGE', step }, world);
  switch (said.kind) {
    case 'events':
      return said.events.reduce((one, event) => send(one, event, world), session);
    case 'danger':
      return send(session, { type: 'STOP', signs: said.signs }, world);
    case 'back': {
      const step = before(given, todo);
      if (step) return change(step);
      manner.person.say(wrap(manner.say('ask-no-way-back'), '  '));
      return session;
    }
    case 'keep':
      return send(session, { type: 'KEEP' }, world);
    case 'change': {
      const step = await whichAnswer(session, around);
      return step ? change(step) : session;
    }
    case 'save':
      return (await save(session, around)) ? 'saved' : session;
    default:
      return 'end';
  }
}

async function whichAnswer(session: Session, { knowledge, manner }: Around): Promise<Step | null> {
  const { say, person, units } = manner;
  const given = givenOf(session.interview.context.answers, knowledge.rules);
  if (given.length === 0) {
    person.say(wrap(say('ask-nothing-to-change'), '  '));
    return null;
  }
  const options = given.map((one) => ({
    ...{ id: stepKey(one.step), alsoSaid: [one.step.question] },
    label: givenText(one, knowledge, units),
  }));
  const text = say('ask-change-which');
  const outcome = await talk(
    { kind: 'one', key: 'step', text, options },
    text,
    plainTelling,
    manner,
  );
  if (outcome.kind !== 'filled') return null;
  return given.find((one) => stepKey(one.step) === outcome.value)?.step ?? null;
}

/** Writes the case; asks for a file where none is known. False: the person went back. */
async function save(session: Session, around: Around): Promise<boolean> {
  const { manner, world } = around;
  const file = session.file ?? (await fileName(around));
  if (file === null) return false;
  saveCase(session, file, world);
  manner.person.say(wrap(manner.say('saved', { file })));
  return true;
}

/** Whoever leaves a terminal in the middle (Ctrl-C, Ctrl-D) and named no file finds the answers in one that was not there. */
function kept(session: Session, { world }: Around): Session {
  const told = session.interview.context.answers.length > 0;
  if (session.file !== null || !told || !world.interactive) return session;
  const file = freeFile(DEFAULT_FILE, world);
  saveCase(session, file, world);
  return { ...session, file };
}

async function fileName({ manner, world }: Around): Promise<string | null> {
  const { person, say, typing } = manner;
  const field: Field = { kind: 'day', key: 'file', text: null };
  let warned: string | null = null;
  for (;;) {
    const text = say('ask-save-where', { file: DEFAULT_FILE });
    const line = await person.answer({ text, hint: '', field });
    if (line === null || typing.commands.get('back')?.includes(line.trim())) return null;
    const file = line.trim() || DEFAULT_FILE;
    if (!world.exists(file) || warned === file) return file;
    warned = file;
    person.say(wrap(say('ask-file-there', { file }), '  '));
  }
}

function bye({ file }: Session, result: Result, { manner }: Around): void {
  if (file === null) return;
  const { person, say, unitsKnown, units } = manner;
  // what was chosen need not be chosen again
  const chosen = [...unitsKnown].map((quantity) => ` --${quantity} ${quoted(units[quantity])}`);
  const then = say('ask-then-work', { file: quoted(file), options: chosen.join('') });
  const work = result.plan.length > 0 ? [wrap(then)] : [];
  person.say([wrap(say('saved', { file })), ...work].join('\n'));
}
