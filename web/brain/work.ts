import type { Audience } from '../../shared/case/answer.ts';
import { jobName } from '../../shared/diagnosis/say.ts';
import { dangerSigns } from '../../shared/interview/danger.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { adviceTexts } from '../../shared/work/advice.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import { comesFirst } from '../../shared/work/comes-first.ts';
import { entryOf, figuresOnly } from '../../shared/work/entry.ts';
import { holesOf } from '../../shared/work/holes.ts';
import { type JobAtHand, openJob, refuseUnsafe } from '../../shared/work/job.ts';
import { madeAt } from '../../shared/work/made-at.ts';
import { recordOf } from '../../shared/work/record.ts';
import { refusalText } from '../../shared/work/refusal.ts';
import type { WorkState } from '../../shared/work/state.ts';
import { viewOf } from '../../shared/work/view.ts';
import { conditionNames } from '../../shared/work/words.ts';
import { timeText } from '../common/time-text.ts';
import { cardOf, type Loaded, type Sheets } from './cards.ts';
import { keyOf } from './kept-looks.ts';
import type { CaseNow, FirstJob, ShownWork, WorkNow } from './protocol.ts';

/**
 * A job as its screen shows it, rebuilt from the case and what has happened at the job.
 * @throws InputError when the rule set has no sheet for the job, or one that could hurt somebody on this plant
 */
export function showWork(all: Loaded & Sheets, now: CaseNow, asked: WorkNow): ShownWork {
  const { rules, words, workWords } = all;
  const { plant, answers, audience, units } = now;
  const job = openOnce(all, now, asked);
  const { context, advice, part } = job;
  const state = replay(context, asked.events, advice, asked.at);
  const last = asked.events.at(-1);
  const refused =
    last && apply(context, replay(context, asked.events.slice(0, -1), advice), last).refused;
  const holes = holesOf(plant, job.index, context.sheet.by, workWords, units);
  const view = viewOf(context, state, workWords, holes, audience);
  const over = view.step?.notBefore ? timeText(view.step.notBefore, units.language) : '';
  const entry = view.step && entryOf(view.step, answers, rules);
  const card = entry && cardOf(all, now, plant, { step: entry });
  return {
    view,
    made: state.made,
    madeAt: madeAt(context, asked.events),
    name: jobName(words, asked.job, now.audience),
    part,
    entry: card && { ...card, fields: figuresOnly(card.fields) },
    advice: adviceTexts(state.advice, job.before, audience, rules, words),
    refused: refused && refusalText(refused, workWords, holes, over),
    dangers: dangerSigns(rules, words),
    end: state.ended ? endOf(all, now, job, state, asked) : null,
  };
}

/** What must be done on the plant before the job can be begun there. */
export function firstJob(
  { words, work }: Loaded & Sheets,
  plant: Plant,
  audience: Audience,
  job: string,
  part: string | undefined,
): FirstJob | null {
  const first = comesFirst(job, part, plant, work);
  return first && { name: jobName(words, first.job, audience), by: first.by };
}

let opened: {
  readonly all: Loaded & Sheets;
  readonly key: string;
  readonly job: JobAtHand;
} | null = null;

/**
 * Opening a job judges the case and plays its sheet through; neither changes while the job goes on, so once is enough
 * for all its ticks.
 */
function openOnce(all: Loaded & Sheets, now: CaseNow, { job, parts, cause }: WorkNow): JobAtHand {
  const { plant, answers, audience, day, units } = now;
  const key = JSON.stringify([keyOf(now), job, parts, cause]);
  if (opened?.key === key && opened.all.words === all.words && opened.all.work === all.work)
    return opened.job;
  const made = openJob({ plant, answers, audience }, { job, parts, cause }, all, day, units);
  if (!made) throw new Error(`no job "${job}" was opened`);
  refuseUnsafe(made.context);
  opened = { all, key, job: made };
  return made;
}

/** What the job adds to the case, whether it worked, and what comes next. */
function endOf(
  all: Loaded & Sheets,
  now: CaseNow,
  job: JobAtHand,
  state: WorkState,
  { events }: WorkNow,
): ShownWork['end'] {
  const record = recordOf(job, state, events, all, now.day);
  const { answers, proof, notes, nextParts, leadsTo, leadsToPart } = record;
  const by = leadsTo === null ? undefined : all.work.jobs[leadsTo]?.by;
  return {
    answers,
    proof,
    left: (proof?.left ?? []).map(({ id, probability }) => ({
      name: all.words.causes[id]?.name ?? id,
      probability,
    })),
    untouched: record.untouched.map((id) => all.words.causes[id]?.name ?? id),
    calls: state.danger.flatMap((sign) => all.words.dangers[sign]?.call[now.audience] ?? []),
    ...{ notes, nextParts, cause: job.cause },
    leftAs: conditionNames(record.leftAs, all.workWords),
    leadsTo:
      leadsTo !== null && by
        ? {
            ...{ job: leadsTo, name: all.words.jobs[leadsTo]?.name ?? leadsTo, by },
            part: leadsToPart,
          }
        : null,
  };
}
