import { localTime } from '../../../shared/common/local-time.ts';
import { dangerSigns } from '../../../shared/interview/danger.ts';
import type { Field } from '../../../shared/interview/form.ts';
import { adviceTexts } from '../../../shared/work/advice.ts';
import { apply, replay } from '../../../shared/work/apply.ts';
import { holesOf } from '../../../shared/work/holes.ts';
import type { JobAtHand } from '../../../shared/work/job.ts';
import { offered, waitOverAt } from '../../../shared/work/next.ts';
import { refusalText } from '../../../shared/work/refusal.ts';
import type { WorkEvent, WorkState } from '../../../shared/work/state.ts';
import { viewOf, type WorkView } from '../../../shared/work/view.ts';
import { type Manner, plainTelling, talk } from '../ask/talk.ts';
import { wrap } from '../show/wrap.ts';
import type { World } from '../world.ts';
import type { SpokenWork } from './knowledge.ts';
import { putStep, type Said } from './put.ts';
import { clock, stepHead } from './show.ts';

/** What a job needs around it. */
export interface Around {
  readonly world: World;
  readonly knowledge: SpokenWork;
  readonly manner: Manner;
}

/** The plant's own names and figures in the steps, in the person's units as known by now. */
export const holesFor = (job: JobAtHand, { knowledge, manner }: Around) =>
  holesOf(job.plant, job.index, job.context.sheet.by, knowledge.workWords, manner.units);

/**
 * Puts step after step until the job has ended or nobody is there any more. Gives all that happened.
 * @param keep called with all events after each, so that nothing is lost in a power cut
 */
export async function walk(
  job: JobAtHand,
  begun: readonly WorkEvent[],
  around: Around,
  keep: (events: readonly WorkEvent[]) => void,
): Promise<readonly WorkEvent[]> {
  const { world, knowledge, manner } = around;
  const { context, audience } = job;
  let events = begun;
  let state = replay(context, events, job.advice, localTime(world.now()));
  for (;;) {
    const view = viewOf(context, state, knowledge.workWords, holesFor(job, around), audience);
    if (state.ended || !view.step) return events;
    manner.person.say(stepHead(view, manner.say));
    const said = await putStep(view.step, job, knowledge, manner);
    if (said.kind === 'end' || said.kind === 'save') return events;
    const happened = await happening(said, view, around);
    if (!happened) continue;
    const event: WorkEvent = { ...happened, at: localTime(world.now()) };
    const next = apply(context, state, event);
    tell(state, next, job, around);
    if (!next.refused) {
      events = [...events, event];
      keep(events);
    }
    state = next;
  }
}

/** What happened, by what was said; null when nothing did. */
async function happening(said: Said, view: WorkView, around: Around): Promise<WorkEvent | null> {
  const { manner, knowledge } = around;
  const { say, person } = manner;
  switch (said.kind) {
    case 'tick': {
      const { kind: _, ...ticked } = said;
      return view.step && { step: view.step.id, ...ticked };
    }
    case 'danger':
      return { danger: said.signs };
    case 'back': {
      if (view.lastTick !== null) return { takeBack: view.lastTick };
      person.say(wrap(say('refused-no-way-back'), '  '));
      return null;
    }
    case 'lost': {
      const stand = view.conditions.filter(({ struckBecause }) => struckBecause === null);
      if (stand.length === 0) {
        person.say(wrap(say('lost-none'), '  '));
        return null;
      }
      const options = stand.map(({ id, name }) => ({ id, label: name, alsoSaid: [] }));
      return which('lost-which', options, (lost) => ({ lost }), manner);
    }
    case 'alarm': {
      const signs = dangerSigns(knowledge.rules, knowledge.words);
      return which('danger-which', signs, (sign) => ({ danger: [sign] }), manner);
    }
    default:
      return null;
  }
}

async function which(
  phrase: string,
  options: Extract<Field, { kind: 'one' }>['options'],
  event: (id: string) => WorkEvent,
  manner: Manner,
): Promise<WorkEvent | null> {
  const text = manner.say(phrase);
  const field: Field = { kind: 'one', key: 'which', text, options };
  const outcome = await talk(field, text, plainTelling, manner);
  if (outcome.kind === 'danger') return { danger: outcome.signs };
  return outcome.kind === 'filled' ? event(String(outcome.value)) : null;
}

/** Says what an event brought besides the next step: why it was refused, what may no longer or again be drunk. */
function tell(before: WorkState, after: WorkState, job: JobAtHand, around: Around): void {
  const { knowledge, manner } = around;
  const { rules, words, workWords } = knowledge;
  const { say, person } = manner;
  if (after.refused) {
    const step = offered(job.context, after);
    const over = step && waitOverAt(after, step);
    const time = over === null ? '' : clock(over);
    person.say(wrap(refusalText(after.refused, workWords, holesFor(job, around), time), '  '));
  }
  const raised = after.advice.filter((hazard) => !before.advice.includes(hazard));
  for (const text of adviceTexts(raised, job.before, job.audience, rules, words)) {
    person.say(wrap(say('drink-still', { text })));
  }
  if (before.advice.length > 0 && after.advice.length === 0) person.say(wrap(say('drink-free')));
}
