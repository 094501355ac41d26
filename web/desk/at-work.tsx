import { useState } from 'hono/jsx/dom';
import { localTime } from '../../shared/common/local-time.ts';
import { type JobLog, jobsUnderWay } from '../../shared/work/log.ts';
import { brain } from '../brain/client.ts';
import type { ShownWork } from '../brain/protocol.ts';
import { onLink } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { type Say, useSay } from '../common/words.ts';
import { caseNow } from '../store/case-now.ts';
import type { KeptCase, KeptEntry } from '../store/kept.ts';
import type { OpenCase } from '../store/use-case.ts';
import { logOf } from '../store/work-log.ts';
import { agoText, isQuiet } from '../work/ago.ts';
import { lastTickAt } from '../work/last-tick-at.ts';
import { useNowAndThen } from '../work/use-now-and-then.ts';
import { isAtDesk } from './signed-in.ts';

type Job = ReturnType<typeof jobsUnderWay<KeptEntry>>[number];

/** The jobs of a case that somebody is at, here or on another device, each with the way to go on with it. */
export function AtWork({ open }: { readonly open: OpenCase }) {
  return (
    <>
      {jobsUnderWay(logOf(open.kept)).map((job) => (
        <JobUnderWay key={`${job.job} ${job.part}`} open={open} job={job} />
      ))}
    </>
  );
}

function JobUnderWay({ open, job: { job, part, ...log } }: { open: OpenCase; job: Job }) {
  const say = useSay();
  const { settings } = useSettings();
  const [shown, setShown] = useState<ShownWork | null>(null);
  const times = useNowAndThen();
  const { kept, looked } = open;
  const { counted } = log;
  useEffect(() => {
    const events = counted.map(({ event }) => event);
    const asked = { ...{ job, parts: part ? [part] : [], cause: null, events } };
    const now = caseNow(kept, settings, looked.plant);
    void brain.work(now, { ...asked, at: localTime(new Date()) }).then((seen) => {
      // a job this rule set knows nothing of is none that could be gone on with here
      setShown('ok' in seen ? seen.ok : null);
    });
  }, [counted.at(-1)?.eventId, counted.length, kept.audience, settings, times]);
  if (!shown) return null;
  const { view, name } = shown;
  const at = counted.at(-1)?.event.at;
  const tickedAt = lastTickAt(counted);
  const now = new Date();
  const isHere = log.device === kept.device;
  return (
    <section class="remark at-work" aria-label={say('at-work')}>
      <p>
        <strong>
          {name}
          {shown.part ? <span class="part-id"> · {shown.part}</span> : null}
        </strong>
      </p>
      <p>
        {view.ended
          ? say('at-work-ended')
          : say('work-progress', { n: Math.min(view.done + 1, view.of), of: view.of })}
        {'. '}
        {whoIsAt(kept, log, say)}{' '}
        {tickedAt ? say('last-step', { ago: agoText(tickedAt, now, settings.language) }) : null}
      </p>
      {!isHere && at && !view.ended && isQuiet(at, now, view.step?.minutes ?? 0) ? (
        <p>{say('at-work-quiet')}</p>
      ) : null}
      {/* who only reads it cannot go on */}
      {kept.closed ? null : (
        <a class="choice" href={`/case/${kept.key}/work/${job}/${part ?? '-'}`} onClick={onLink}>
          {say(isHere ? 'back-to-job' : 'go-on-with-job')}
        </a>
      )}
    </section>
  );
}

/** Who did what counted last: this device, somebody by name, who has the link, or another device. */
function whoIsAt(kept: KeptCase, { device, counted }: JobLog<KeptEntry>, say: Say): string {
  if (device === kept.device) return say('at-work-here');
  const name = counted.findLast((entry) => entry.device === device)?.by;
  if (name) return say('at-work-by', { name });
  return say(isAtDesk(kept.base) ? 'at-work-link' : 'at-work-elsewhere');
}
