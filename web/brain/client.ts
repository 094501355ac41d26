import { talkTo } from './talk-to.ts';

/** The one worker of the page. */
export const brain = talkTo(
  new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'judge' }),
);
