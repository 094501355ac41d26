import { whoPhrase } from '../../shared/diagnosis/who.ts';
import { untilDescribed } from '../../shared/plant/ready-made.ts';
import { AskTwice } from '../common/ask-twice.tsx';
import { chanceWord } from '../common/chance.ts';
import { useSay } from '../common/words.ts';
import { JobOfPlan, PlanFrame } from '../ranking/plan.tsx';
import type { OpenCase } from '../store/use-case.ts';
import { Decided } from '../talk/decision.tsx';

interface Props {
  readonly open: OpenCase;
  readonly base: string;
}

/** Phone or visit beside what to do, above the drawing: what an agent decides by is in sight while the talk goes on. */
export function Verdict({ open, base }: Props) {
  const say = useSay();
  return (
    <div class="verdict">
      <Decided looked={open.looked} />
      <PlanInShort open={open} base={base} />
      {isAsBegun(open) ? <p class="remark">{say('plant-usual')}</p> : null}
    </div>
  );
}

/** What stands in for a plant until somebody describes it stands there still. */
const isAsBegun = ({ looked }: OpenCase): boolean =>
  JSON.stringify(looked.plant.line) === JSON.stringify(untilDescribed.line);

/** A line for each job, which opens; the first stands open once nothing more is asked. */
function PlanInShort({ open, base }: Props) {
  const say = useSay();
  return (
    <PlanFrame
      open={open}
      row={(job, i) => (
        <li key={`${job.job} ${job.cause}`} class="job-line">
          <details open={i === 0 && !open.looked.card}>
            <summary class="job-head">
              <span class="job-name">{job.name}</span>
              <span class="label">
                {say(job.overdue ? 'job-short-due' : 'job-short', {
                  who: say(whoPhrase(job.by, 'agent')),
                  minutes: Math.round(job.minutes),
                  cures: chanceWord(job.cures, say),
                })}
              </span>
            </summary>
            <JobOfPlan job={job} open={open} base={base} />
            {open.kept.closed ? null : (
              <AskTwice
                ask={say('job-was-done')}
                sure={say('job-was-done-sure')}
                onSure={() =>
                  open.answer({ question: 'work-done' }, { job: job.job, parts: job.parts })
                }
              />
            )}
          </details>
        </li>
      )}
    />
  );
}
