import type { Child } from 'hono/jsx/dom';
import { whoPhrase } from '../../shared/diagnosis/who.ts';
import type { ShownJob } from '../brain/protocol.ts';
import { chanceWord } from '../common/chance.ts';
import { labelOf } from '../common/part-name.ts';
import { onLink } from '../common/router.ts';
import { useSay } from '../common/words.ts';
import type { OpenCase } from '../store/use-case.ts';
import { Paragraphs } from '../talk/paragraphs.tsx';
import { ComesFirst } from './comes-first.tsx';
import { isCured, stillToDo } from './cured.ts';
import { isTooEarly } from './too-early.ts';

/** More than these are no plan. */
const MOST = 4;

interface Props {
  readonly open: OpenCase;
  readonly base: string;
}

/** The jobs to be told, in order of least expected cost; null where there is no plan to tell. */
export function toldPlan({ kept, looked }: OpenCase): readonly ShownJob[] | null {
  const plan = stillToDo(looked.plan, kept);
  // no job is begun before danger signs and complaint were asked for
  if (looked.result.stopped || isTooEarly(looked)) return null;
  return plan.length === 0 && isCured(kept) ? null : plan.slice(0, MOST);
}

/** The jobs in order of least expected cost, each with who does it and what to see afterwards. */
export function Plan({ open, base }: Props) {
  return (
    <PlanFrame
      open={open}
      row={(job) => (
        <li key={`${job.job} ${job.cause}`}>
          <p class="job-name">{job.name}</p>
          <JobOfPlan job={job} open={open} base={base} />
        </li>
      )}
    />
  );
}

interface FrameProps {
  readonly open: OpenCase;
  readonly row: (job: ShownJob, i: number) => Child;
}

/** The plan under its heading, or that there is none, and what comes before all of it; nothing where no plan is told yet. */
export function PlanFrame({ open, row }: FrameProps) {
  const say = useSay();
  const plan = toldPlan(open);
  if (!plan) return null;
  return (
    <section class="plan" aria-label={say('heading-plan')}>
      <h2>{say('heading-plan')}</h2>
      {plan.length === 0 ? <p>{say('plan-none')}</p> : null}
      <ol>{plan.map(row)}</ol>
      <p class="small">{say('local-codes')}</p>
    </section>
  );
}

/** What there is to say of a job under its name: who, how long, what for, what comes first, what to see afterwards. */
export function JobOfPlan({ job, open, base }: Props & { readonly job: ShownJob }) {
  const say = useSay();
  const { kept, looked } = open;
  return (
    <>
      <p>
        {say(job.overdue ? 'job-line-due' : 'job-line', {
          who: say(whoPhrase(job.by, kept.audience)),
          minutes: Math.round(job.minutes),
          cures: chanceWord(job.cures, say),
          cause: job.causeName,
        })}
        {job.parts.length > 0
          ? ` ${say('job-parts', { parts: job.parts.map((id) => labelOf(id, looked.plant, say)).join(', ') })}`
          : ''}
      </p>
      <ComesFirst job={job} part={job.parts[0]} plant={looked.plant} audience={kept.audience} />
      <Paragraphs text={job.lookFor} class="small" />
      <a
        class="choice"
        href={`${base}/work/${job.job}/${job.parts.join('+') || '-'}`}
        onClick={onLink}
      >
        {say('do-job')}
      </a>
    </>
  );
}
