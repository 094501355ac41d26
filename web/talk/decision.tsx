import { useRef } from 'hono/jsx/dom';
import { atHome, comesBefore, endedBy, waits, whoPhrase } from '../../shared/diagnosis/who.ts';
import type { Looked, ShownJob } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { useSay } from '../common/words.ts';
import { isTooEarly } from '../ranking/too-early.ts';
import { type FirstJobs, jobKey, useFirstJobs } from './use-first-jobs.ts';

interface Told {
  readonly looked: Looked;
  readonly firsts: FirstJobs;
}

/**
 * Phone, visit or stop and why: how soon, what to load, the chance that one visit is enough; at a danger sign, whom to call.
 * What was decided before stands until it is known what the new plan needs first: a word taken back a second later is
 * believed.
 */
export function Decision({ looked }: { readonly looked: Looked }) {
  const say = useSay();
  const home = atHome(looked.plan);
  const jobs = looked.result.dispatch.decision === 'phone' ? home : NO_JOBS;
  const firsts = useFirstJobs(jobs, looked.plant);
  const told = useRef<Told | null>(null);
  if (firsts) told.current = { looked, firsts };
  // a danger sign decides before anything else is told
  if (isTooEarly(looked) && !looked.result.stopped) return <p>{say('nothing-told')}</p>;
  return told.current ? <DecisionTold {...told.current} /> : <p>{say('one-moment')}</p>;
}

function DecisionTold({ looked, firsts }: Told) {
  const say = useSay();
  const { stopped, dispatch } = looked.result;
  const { decision, who, oneVisit, priority } = dispatch;
  const home = atHome(looked.plan);
  const firstOf = (job: ShownJob) => firsts.get(jobKey(job));
  const before = comesBefore(home, firstOf);
  const verdict = before ? 'send-first' : decision;
  const goes = before ?? who;
  const hurry = looked.earlier.filter(({ step }) => looked.hurry.includes(step.question));
  return (
    <>
      <p class="decision">
        {say(`dispatch-${verdict}`, { who: goes ? say(`goes-${goes}`) : '' })}{' '}
        {say('priority', { priority: say(`priority-${priority}`) })}
      </p>
      {looked.caller?.isAway && !stopped ? <p>{say('dispatch-away')}</p> : null}
      {home.map((job) => {
        const first = firstOf(job);
        return first ? (
          <p key={jobKey(job)}>
            {say('dispatch-before', {
              job: first.name,
              who: say(whoPhrase(first.by, 'agent')),
              before: job.name,
            })}
          </p>
        ) : null;
      })}
      {looked.whom.map((whom) => (
        <p key={whom} class="whom">
          {say('dispatch-call', { whom })}
        </p>
      ))}
      {stopped || before || home.length === 0 ? null : (
        <p>
          {say('dispatch-home', {
            // what must wait for somebody is not done by the caller
            probability: chanceCount(
              endedBy(home, (job) => !waits(firstOf)(job)),
              say,
            ),
          })}
        </p>
      )}
      {oneVisit === null ? null : (
        <p>{say('dispatch-one-visit', { probability: chanceCount(oneVisit, say) })}</p>
      )}
      {hurry.length === 0 || stopped ? null : (
        <p>
          {say(`hurry-${priority}`, {
            told: hurry.map(({ label, text }) => say('hurry-told', { label, text })).join('; '),
          })}
        </p>
      )}
      <VanList items={before ? vanOf(home) : looked.van} />
    </>
  );
}

const NO_JOBS: readonly ShownJob[] = [];

const vanOf = (jobs: readonly ShownJob[]): readonly string[] => [
  ...new Set(jobs.flatMap(({ van }) => van)),
];

/**
 * The decision under its heading. On the desk it stands above the drawing, where an agent finds it without scrolling; on
 * the phone after the talk.
 */
export function Decided({ looked }: { readonly looked: Looked }) {
  const say = useSay();
  return (
    <section class="decided" aria-label={say('heading-dispatch')}>
      <h2>{say('heading-dispatch')}</h2>
      <Decision looked={looked} />
      {looked.result.stopped ? <AfterStop /> : null}
    </section>
  );
}

/** What an agent does once a danger sign has ended the asking, in its order. */
const afterStop = ['aloud', 'who-calls', 'write', 'nobody', 'end', 'safe'] as const;

function AfterStop() {
  const say = useSay();
  return (
    <>
      <h3>{say('after-stop')}</h3>
      <ol>
        {afterStop.map((step) => (
          <li key={step}>{say(`after-stop-${step}`)}</li>
        ))}
      </ol>
    </>
  );
}

/** What to load, where there is anything to load. */
export function VanList({ items }: { readonly items: readonly string[] }) {
  const say = useSay();
  if (items.length === 0) return null;
  return (
    <>
      <h3>{say('van-list')}</h3>
      <ul>
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </>
  );
}
