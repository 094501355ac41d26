import { keyOf } from './case-key.ts';
import type { CaseNow, Checked, Looked } from './protocol.ts';
import { talkTo } from './talk-to.ts';

/** Sent to the window when the worker cannot answer. */
export const BRAIN_FAILED = 'gaugewalk-brain-failed';

const KEPT = 60;
const ahead = new Map<string, Checked<Looked>>();

/** What the case comes to, where the worker judged it while the question was being read. */
export const judgedAhead = (now: CaseNow): Checked<Looked> | undefined => ahead.get(keyOf(now));

/** The one worker of the page. */
export const brain = talkTo(
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'judge' }),
  (key, looked) => {
    ahead.set(key, looked);
    const oldest = ahead.keys().next().value;
    if (ahead.size > KEPT && oldest !== undefined) ahead.delete(oldest);
  },
  () => dispatchEvent(new Event(BRAIN_FAILED)),
);
