import type { Brain, Checked, Looked } from './protocol.ts';

type Method = keyof Brain;
interface Call {
  readonly id: number;
  readonly method: Method;
  readonly args: readonly unknown[];
}
/** Told without being asked: what a case will come to if it is answered so. */
interface Ahead {
  readonly ahead: string;
  readonly looked: Checked<Looked>;
}
type Reply = { readonly id: number } & ({ readonly value: unknown } | { readonly error: string });

/**
 * Page side: every method of the worker as a function that gives a promise.
 * @param onAhead told what was judged ahead, by the key of the case
 * @param onFailure told when a call fails, or the worker itself does: what waits for an answer then waits for good
 */
export function talkTo(
  worker: Worker,
  onAhead: (key: string, looked: Checked<Looked>) => void,
  onFailure: () => void,
): Brain {
  const waiting = new Map<
    number,
    { resolve: (value: unknown) => void; reject: (error: Error) => void }
  >();
  let last = 0;
  worker.addEventListener('message', ({ data }: MessageEvent<Reply | Ahead>) => {
    if ('ahead' in data) return onAhead(data.ahead, data.looked);
    const call = waiting.get(data.id);
    waiting.delete(data.id);
    if ('error' in data) {
      call?.reject(new Error(data.error));
      onFailure();
    } else call?.resolve(data.value);
  });
  worker.addEventListener('error', onFailure);
  return new Proxy({} as Brain, {
    get:
      (_, method: Method) =>
      (...args: unknown[]) =>
        new Promise((resolve, reject) => {
          last += 1;
          waiting.set(last, { resolve, reject });
          worker.postMessage({ id: last, method, args } satisfies Call);
        }),
  });
}

export const tellAhead = (
  scope: DedicatedWorkerGlobalScope,
  ahead: string,
  looked: Checked<Looked>,
): void => scope.postMessage({ ahead, looked } satisfies Ahead);

/** Worker side: answers calls one after the other, in the order in which they came. */
export function answerCalls(brain: Brain, scope: DedicatedWorkerGlobalScope): void {
  let before: Promise<unknown> = Promise.resolve();
  scope.addEventListener('message', ({ data }: MessageEvent<Call>) => {
    before = before.then(async () => {
      try {
        const method = brain[data.method] as (...args: readonly unknown[]) => Promise<unknown>;
        scope.postMessage({ id: data.id, value: await method(...data.args) } satisfies Reply);
      } catch (error) {
        scope.postMessage({ id: data.id, error: String(error) } satisfies Reply);
      }
    });
  });
}
