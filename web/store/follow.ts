import type { Answer } from '../../shared/case/answer.ts';
import { changeCase, readCase } from './db.ts';
import type { HeardWork } from './kept.ts';
import { takeWork } from './lazy-work-sync.ts';
import { forServer, merged } from './merged.ts';

interface Heard extends HeardWork {
  readonly count: number;
  readonly answers: Answer[];
}

/** Hears of answers that others give to the same case, and of what happens at its jobs, as they happen. Returns a function that stops it. */
export function follow(key: string, base: string): () => void {
  let source: EventSource | undefined;
  let stopped = false;
  void readCase(key).then((kept) => {
    if (!kept || stopped) return;
    source = new EventSource(`${base}/events?seen=${kept.sent}&work=${kept.logSent ?? 0}`);
    source.addEventListener('change', ({ data }: MessageEvent<string>) => {
      const { count, answers, ...jobs } = JSON.parse(data) as Heard;
      if (jobs.work.length > 0) void takeWork(key, jobs);
      void changeCase(key, (now) => {
        const first = count - answers.length;
        if (answers.length === 0 || first > now.sent) return null;
        const theirs = [...forServer(now).slice(0, first), ...answers];
        return theirs.length < now.sent ? null : merged(now, theirs);
      });
    });
    source.addEventListener('withdrawn', () => {
      source?.close();
      void changeCase(key, (now) => ({ ...now, closed: true }));
    });
  });
  return () => {
    stopped = true;
    source?.close();
  };
}
