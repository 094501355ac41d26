import { keptLooks, keyOf } from './kept-looks.ts';
import type { CaseNow, Checked, Looked } from './protocol.ts';
import { talkTo } from './talk-to.ts';

/** Sent to the window when the worker cannot answer. */
export const BRAIN_FAILED = 'gaugewalk-brain-failed';

const ahead = keptLooks();

/** What the case comes to, where the worker judged it while the question was being read. */
export const judgedAhead = (now: CaseNow): Checked<Looked> | undefined => ahead.get(keyOf(now));

/** The one worker of the page. */
export const brain = talkTo(
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'judge' }),
  ahead.set,
  () => dispatchEvent(new Event(BRAIN_FAILED)),
);
