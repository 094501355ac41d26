import { parseValue } from '../../../shared/case/values.ts';
import { sayReadings } from '../../../shared/diagnosis/say.ts';
import type { Field } from '../../../shared/interview/form.ts';
import { formOf } from '../../../shared/interview/form.ts';
import type { Step } from '../../../shared/interview/step.ts';
import { entryOf, figuresOnly } from '../../../shared/work/entry.ts';
import type { JobAtHand } from '../../../shared/work/job.ts';
import type { StepView } from '../../../shared/work/view.ts';
import { fill } from '../ask/fill.ts';
import { type Manner, type Outcome, plainTelling, type Telling, talk } from '../ask/talk.ts';
import { wrap } from '../show/wrap.ts';
import type { SpokenWork } from './knowledge.ts';

/** How a step went, or what was said instead. */
export type Said =
  | { readonly kind: 'tick'; readonly answer?: string; readonly input?: unknown }
  | Exclude<Outcome, { kind: 'filled' | 'unknown' }>;

const commands = ['how', 'back', 'lost', 'alarm', 'save'] as const;
const atStep: Telling = { ...plainTelling, commands };
const atEntry: Telling = { ...plainTelling, commands: ['unknown', ...commands] };
const TICK = 'done';

/** Puts one step: a tick or one of its answers, then its reading or note. Readings are asked for as in the interview. */
export async function putStep(
  step: StepView,
  job: JobAtHand,
  knowledge: SpokenWork,
  manner: Manner,
): Promise<Said> {
  const entry = entryOf(step, job.theCase.answers, knowledge.rules);
  if (step.answers.length === 0 && entry) {
    const text = withTaps(step.text, entry, job, knowledge);
    const entered = await enter(entry, text, job, knowledge, manner);
    return entered.kind === 'entered' ? tick(entered.input) : entered;
  }
  for (;;) {
    const chosen = await choose(step, manner);
    if (chosen.kind !== 'filled') return chosen;
    const answer = step.answers.find(({ id }) => id === chosen.value);
    const ticked = tick(undefined, answer?.id);
    if (step.input === null || answer?.takesEntry === false) return ticked;
    const entered = entry
      ? await enter(entry, manner.say('ask-value'), job, knowledge, manner)
      : await note(manner);
    if (entered.kind === 'entered') return tick(entered.input, answer?.id);
    if (entered.kind !== 'back') return entered;
  }
}

/** The step's text; where taps are open, how many they were before the work. */
function withTaps(
  text: string,
  { taps }: Step,
  { audience }: JobAtHand,
  { words }: SpokenWork,
): string {
  const opened = taps === 'closed' ? null : sayReadings(words, taps, audience);
  return opened === null ? text : `${text} ${opened}`;
}

const tick = (input: unknown, answer?: string): Said => ({
  ...{ kind: 'tick' },
  ...(answer !== undefined && { answer }),
  ...(input !== undefined && { input }),
});

type Chosen =
  | { readonly kind: 'filled'; readonly value: string }
  | Exclude<Outcome, { kind: 'filled' | 'unknown' }>;

/** Nobody can leave a step open: what makes a part safe is known, or it is not made. */
async function choose(step: StepView, manner: Manner): Promise<Chosen> {
  const { say, person } = manner;
  const done = { id: TICK, label: step.tick, alsoSaid: say('typed-done').split(' | ') };
  const options = step.answers.map(({ id, label }) => ({ id, label, alsoSaid: [] }));
  const field: Field = {
    ...{ kind: 'one', key: 'step', text: null },
    options: options.length > 0 ? options : [done],
  };
  for (;;) {
    const outcome = await talk(field, step.text, { ...atStep, how: step.inFull }, manner);
    if (outcome.kind === 'filled') return { kind: 'filled', value: String(outcome.value) };
    if (outcome.kind !== 'unknown') return outcome;
    person.say(wrap(say('not-understood', { hint: say('hint-one') }), '  '));
  }
}

type Entered =
  | { readonly kind: 'entered'; readonly input: unknown }
  | Exclude<Outcome, { kind: 'filled' | 'unknown' }>;

/** A reading, in the person's own units; what cannot be read is left out. */
async function enter(
  entry: Step,
  text: string,
  { plant, before }: JobAtHand,
  { rules, words }: SpokenWork,
  manner: Manner,
): Promise<Entered> {
  const gauges = plant.line.filter(({ kind }) => kind === 'gauge').map(({ id }) => id);
  const form = formOf(entry, { gauges }, plant, rules, words, manner.say);
  const asked = { ...form, fields: figuresOnly(form.fields) };
  const outcome = await fill(asked, text, atEntry, manner, (value) => {
    parseValue(entry.question, value, rules, plant, before.today, '');
  });
  if (outcome.kind === 'unknown') return { kind: 'entered', input: undefined };
  if (outcome.kind !== 'filled') return outcome;
  const value = outcome.value as { readonly bar?: unknown };
  return { kind: 'entered', input: value.bar === 'unknown' ? undefined : value };
}

async function note(manner: Manner): Promise<Entered> {
  const text = manner.say('ask-note');
  const outcome = await talk({ kind: 'note', key: 'note', text }, text, atStep, manner);
  if (outcome.kind === 'unknown') return { kind: 'entered', input: undefined };
  if (outcome.kind !== 'filled') return outcome;
  return { kind: 'entered', input: outcome.value === '' ? undefined : outcome.value };
}
