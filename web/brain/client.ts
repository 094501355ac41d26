import { talkTo } from './talk-to.ts';

/** Sent to the window when the worker cannot answer. */
export const BRAIN_FAILED = 'gaugewalk-brain-failed';

/** The one worker of the page. */
export const brain = talkTo(
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'judge' }),
  () => dispatchEvent(new Event(BRAIN_FAILED)),
);
