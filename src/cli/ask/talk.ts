import type { Field, Filled } from '../../../shared/interview/form.ts';
import type { Option } from '../../../shared/interview/match.ts';
import {
  type Command,
  type Reply,
  readReply,
  type Typing,
} from '../../../shared/interview/reply.ts';
import { readPressures } from '../../../shared/interview/units.ts';
import { pressureFigure, type Units } from '../../../shared/ruleset/figures.ts';
import type { Say } from '../io.ts';
import { wrap } from '../show/wrap.ts';
import type { Person } from './person.ts';

/** What a person made of one field. `end`: nobody is there any more. */
export type Outcome =
  /** `following`: what the fields after it were filled with in the same line */
  | {
      readonly kind: 'filled';
      readonly value: Filled;
      readonly following?: readonly number[];
    }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'danger'; readonly signs: readonly string[] }
  | { readonly kind: 'back' | 'keep' | 'change' | 'save' | 'lost' | 'alarm' | 'end' };

/** The manner of a conversation: how lines are read, what can be told besides the question. */
export interface Manner {
  readonly person: Person;
  readonly typing: Typing;
  readonly say: Say;
  units: Units;
  /** what the person has chosen a unit for */
  readonly unitsKnown: Set<'pressure' | 'volume'>;
  /** kinds of field whose way of answering was told: once is enough */
  readonly told: Set<Field['kind']>;
}

/** What can be told about a question before it is answered. */
export interface Telling {
  readonly why: string;
  readonly how: string | null;
  readonly result: (() => string) | null;
  /** what has a meaning here instead of an answer; told when help is asked for */
  readonly commands: readonly (Command | 'unknown')[];
}

export const plainTelling: Telling = { why: '', how: null, result: null, commands: [] };

/**
 * Puts one field to the person until there is something to go on with.
 * @param gauges how many are asked for from this field on: all may be told in one line
 */
export async function talk(
  field: Field,
  text: string,
  telling: Telling,
  manner: Manner,
  gauges = 0,
): Promise<Outcome> {
  const { person, typing } = manner;
  for (;;) {
    const several =
      gauges > 1 ? ` ${manner.say('hint-several', { figures: figuresIn(manner) })}` : '';
    const hint = manner.told.has(field.kind) ? '' : hintOf(field, manner) + several;
    if (field.kind !== 'figure' && hint !== '') manner.told.add(field.kind);
    const line = await person.answer({ text, field, hint });
    if (line === null) return { kind: 'end' };
    const [value, ...following] = readPressures(line, gauges, manner.units) ?? [];
    if (value !== undefined) return { kind: 'filled', value, following };
    const reply = readReply(line, field, typing, manner.units);
    const outcome = await outcomeOf(reply, field, telling, manner);
    if (outcome) return outcome;
  }
}

/** Three gauges as they may be typed, in the unit that they are read in. */
const figuresIn = ({ units }: Manner): string =>
  [3.4, 3.2, 0.9].map((bar) => pressureFigure(bar, units)).join(' ');

/** null: ask again. */
async function outcomeOf(
  reply: Reply,
  field: Field,
  telling: Telling,
  manner: Manner,
): Promise<Outcome | null> {
  const { person, say } = manner;
  const tell = (text: string) => {
    person.say(wrap(text, '  '));
    return null;
  };
  switch (reply.kind) {
    case 'filled':
      manner.units = { ...manner.units, ...reply.units };
      return { kind: 'filled', value: reply.value };
    case 'unknown':
    case 'back':
    case 'keep':
    case 'change':
    case 'save':
    case 'lost':
    case 'alarm':
      return { kind: reply.kind };
    case 'why':
      return tell(telling.why || say('ask-no-how'));
    case 'how':
      return tell(telling.how ?? say('ask-no-how'));
    case 'help':
      person.say([...telling.commands, 'danger'].map((key) => `  ${say(`key-${key}`)}`).join('\n'));
      return null;
    case 'result':
      if (telling.result) person.say(telling.result());
      return null;
    case 'danger':
      return meantDanger(reply, field, telling, manner);
    case 'near':
      if (reply.lost) tell(say('not-understood-part', { lost: reply.lost }));
      return oneOfNear(reply.options, reply.found, field, manner);
    case 'elsewhere':
      return tell(say('said-elsewhere', { question: reply.question }));
    case 'unclear':
      return tell(say('not-understood', { hint: hintOf(field, manner) }));
  }
}

/** A danger sign named by itself stops at once; one among other words is asked back. */
async function meantDanger(
  { signs, sure, otherwise }: Extract<Reply, { kind: 'danger' }>,
  field: Field,
  telling: Telling,
  manner: Manner,
): Promise<Outcome | null> {
  const { say } = manner;
  const danger: Outcome = { kind: 'danger', signs: signs.map(({ id }) => id) };
  if (sure) return danger;
  const yesOrNo: Field = {
    ...{ kind: 'one', key: 'danger', text: null },
    options: [
      { id: 'yes', label: say('yes'), alsoSaid: saidIn(say('said-yes')) },
      { id: 'no', label: say('no'), alsoSaid: saidIn(say('said-no')) },
    ],
  };
  const text = say('ask-meant-danger', { sign: signs.map(({ label }) => label).join('; ') });
  const outcome = await talk(yesOrNo, text, plainTelling, manner);
  // Not knowing counts as danger here: the sign was typed unasked.
  if (outcome.kind === 'unknown') return danger;
  if (outcome.kind !== 'filled') return outcome;
  return outcome.value === 'yes' ? danger : outcomeOf(otherwise, field, telling, manner);
}

/** Asks back among the options that could be meant. */
async function oneOfNear(
  options: readonly Option[],
  found: readonly string[],
  field: Field,
  manner: Manner,
): Promise<Outcome | null> {
  const { say } = manner;
  const all = 'options' in field ? field.options : [];
  const labels = all.filter(({ id }) => found.includes(id)).map(({ label }) => label);
  const text =
    labels.length > 0 ? say('ask-near-more', { found: labels.join(', ') }) : say('ask-near');
  const among = { key: field.key, text, options };
  const again: Field =
    field.kind === 'many'
      ? { kind: 'many', ...among, ...(labels.length > 0 && { mayBeNone: true }) }
      : { kind: 'one', ...among };
  const outcome = await talk(again, text, plainTelling, manner);
  if (outcome.kind === 'back') return null;
  if (outcome.kind !== 'filled' || !Array.isArray(outcome.value)) return outcome;
  const meant = new Set([...found, ...(outcome.value as readonly string[])]);
  return { kind: 'filled', value: all.map(({ id }) => id).filter((id) => meant.has(id)) };
}

const saidIn = (text: string) => text.split('|').map((one) => one.trim());

function hintOf(field: Field, { say, units }: Manner): string {
  switch (field.kind) {
    case 'one': {
      const figure = field.orFigure === 'metres' ? ` ${say('hint-metres')}` : '';
      return `${say('hint-one')}${figure}`;
    }
    case 'many':
      // where only Enter and commands are waited for there is nothing to number
      return field.options.length > 0 ? say('hint-many') : '';
    case 'day':
      return say('hint-day');
    case 'note':
      return say('hint-note');
    case 'figure':
      if (field.quantity === 'pressure') return say('hint-pressure', { unit: units.pressure });
      if (field.quantity === 'volume') return say('hint-volume', { unit: units.volume });
      return say(field.quantity === 'seconds' ? 'hint-time' : 'hint-figure');
  }
}
