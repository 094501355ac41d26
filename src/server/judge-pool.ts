import { availableParallelism } from 'node:os';
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import { InputError } from '../../shared/common/errors.ts';
import type { CaseInput, Judge, View } from './judge.ts';

/** What a judging thread answers. */
export type Judged =
  | { readonly view: View }
  | { readonly refused: { readonly where: string; readonly message: string } }
  | { readonly failed: string };

export interface JudgePool extends Judge {
  /** Starts the threads and has each read its rules, so that the first caller does not wait for it. */
  warm(): void;
  stop(): Promise<void>;
}

interface Task {
  readonly input: CaseInput;
  readonly resolve: (view: View) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Judges in threads of their own, one a core, so that a hard case keeps no other request waiting. `inline` does the
 * quick checks and knows the rule sets. A thread that dies fails its own case only and is replaced.
 */
export function judgePool(inline: Judge, size = Math.max(1, availableParallelism())): JudgePool {
  const file = new URL(`./judge-worker${extname(import.meta.url)}`, import.meta.url);
  const waiting: Task[] = [];
  const idle: Worker[] = [];
  const busy = new Map<Worker, Task>();
  let stopped = false;

  const start = (): void => {
    const worker = new Worker(file);
    worker.unref();
    worker.on('message', (judged: Judged) => {
      const task = busy.get(worker);
      busy.delete(worker);
      idle.push(worker);
      if (task) settle(task, judged);
      next();
    });
    worker.on('error', (error) => busy.get(worker)?.reject(error));
    worker.on('exit', () => {
      busy.get(worker)?.reject(new Error('a judging thread ended'));
      busy.delete(worker);
      const place = idle.indexOf(worker);
      if (place >= 0) idle.splice(place, 1);
      next();
    });
    idle.push(worker);
  };

  const next = (): void => {
    const task = waiting[0];
    if (!task || stopped) return;
    if (idle.length === 0 && busy.size < size) start();
    const worker = idle.pop();
    if (!worker) return;
    waiting.shift();
    busy.set(worker, task);
    worker.postMessage(task.input);
  };

  const computeView = (input: CaseInput): Promise<View> =>
    new Promise((resolve, reject) => {
      waiting.push({ input, resolve, reject });
      next();
    });

  return {
    ruleSets: inline.ruleSets,
    validate: inline.validate,
    computeView,
    warm() {
      const ruleSet = inline.ruleSets.at(-1) ?? '';
      const nobody = { answers: [], audience: 'householder', language: 'en', ruleSet };
      for (let i = 0; i < size; i += 1) computeView(nobody).catch(() => undefined); // a real caller is told
    },
    async stop() {
      stopped = true;
      await Promise.all([...idle, ...busy.keys()].map((worker) => worker.terminate()));
    },
  };
}

function settle({ resolve, reject }: Task, judged: Judged): void {
  if ('view' in judged) resolve(judged.view);
  else if ('refused' in judged)
    reject(new InputError(judged.refused.where, judged.refused.message));
  else reject(new Error(`judging failed: ${judged.failed}`));
}
