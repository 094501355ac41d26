import type { PlannedJob, Result } from '../../../shared/diagnosis/result.ts';
import { jobName } from '../../../shared/diagnosis/say.ts';
import { atHome, comesBefore, whoPhrase } from '../../../shared/diagnosis/who.ts';
import { comesFirst } from '../../../shared/work/comes-first.ts';
import { figureText } from './probability.ts';
import { type Showing, section } from './result.ts';
import { wrap } from './wrap.ts';

/** What to do, in the order of least expected cost; for the agent also the decision to send somebody. */
export function planText(result: Result, showing: Showing): string {
  if (result.stopped) return '';
  const { say } = showing;
  const { plan } = result;
  const overdue = new Set(result.causes.filter((cause) => cause.overdue).map(({ id }) => id));
  const lines =
    plan.length === 0
      ? [`  ${say('plan-none')}`]
      : plan.flatMap((job, i) => jobLines(job, i + 1, overdue.has(job.cause), showing));
  const advice = plan.length === 0 ? [] : ['', wrap(say('local-codes'), '  ')];
  const work = section(say(result.next ? 'heading-plan-so-far' : 'heading-plan'), [
    ...lines,
    ...advice,
  ]);
  return showing.audience === 'agent' ? `${work}\n${dispatchText(result, showing)}` : work;
}

function jobLines(job: PlannedJob, place: number, isDue: boolean, showing: Showing) {
  const { words, say, currency, audience } = showing;
  const cause = words.causes[job.cause]?.name ?? job.cause;
  const money =
    job.money === null ? '' : say('plan-money', { amount: Math.round(job.money), currency });
  const minutes = Math.round(job.minutes);
  const on = job.parts.length > 0 ? say('plan-on', { parts: job.parts.join(', ') }) : '';
  const head = say('plan-job', {
    job: jobName(words, job.job, audience),
    on,
    who: say(whoPhrase(job.by, audience)),
    minutes,
    money,
  });
  return [
    wrap(head, `  ${place}. `),
    wrap(
      isDue
        ? say('plan-due', { cause })
        : say('plan-why', { cause, figure: figureText(job.cures, say) }),
      '     ',
    ),
    ...firstText(job, 'plan-first', showing).map((text) => wrap(text, '     ')),
    ...(job.lookFor === '' ? [] : [wrap(say('plan-look-for', { lookFor: job.lookFor }), '     ')]),
  ];
}

/** What this plant needs before the job can be begun, where there is anything. */
function firstText(job: PlannedJob, phrase: 'plan-first' | 'dispatch-before', showing: Showing) {
  const { words, say, audience } = showing;
  const first = firstOf(job, showing);
  if (!first) return [];
  const holes = {
    job: jobName(words, first.job, audience),
    before: jobName(words, job.job, audience),
    who: say(whoPhrase(first.by, audience)),
  };
  return [say(phrase, holes)];
}

const firstOf = (job: PlannedJob, { plant, work }: Showing) =>
  comesFirst(job.job, job.parts[0], plant, work);

/** Phone or visit, what goes on the van, and whether one visit is enough. */
function dispatchText({ dispatch, plan }: Result, showing: Showing): string {
  const { say, words } = showing;
  const { decision, who, van, oneVisit, priority } = dispatch;
  const home = decision === 'phone' ? atHome(plan) : [];
  const before = comesBefore(home, (job) => firstOf(job, showing));
  const lines = [
    say(`dispatch-${before ? 'send-first' : decision}`, {
      who: say(`goes-${before ?? who ?? 'technician'}`),
    }),
    ...home.flatMap((job) => firstText(job, 'dispatch-before', showing)),
    say('dispatch-priority', { priority: say(`priority-${priority}`) }),
    ...(van.length > 0
      ? [say('dispatch-van', { van: van.map((id) => words.van[id] ?? id).join(', ') })]
      : []),
    ...(oneVisit === null
      ? []
      : [say('dispatch-one-visit', { probability: figureText(oneVisit, say) })]),
  ];
  return section(
    say('heading-dispatch'),
    lines.map((line) => wrap(line, '  ')),
  );
}
