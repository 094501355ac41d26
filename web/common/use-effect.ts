import { useEffect as useAfterFrame, useLayoutEffect, useRef } from 'hono/jsx/dom';

type Effect = Parameters<typeof useAfterFrame>[0];

/**
 * `useEffect`, kept to once. The library queues an effect for the next frame each time a component is drawn until then:
 * drawn twice, it runs twice and only the second is ever cleaned up; taken away before the frame, it runs all the same.
 * What listened on behalf of a screen already left then drew that screen anew beside the next.
 */
export function useEffect(effect: Effect, deps?: readonly unknown[]): void {
  const isGone = useRef(false);
  useLayoutEffect(
    () => () => {
      isGone.current = true;
    },
    [],
  );
  let hasRun = false;
  let clean: ReturnType<Effect>;
  useAfterFrame(() => {
    if (hasRun || isGone.current) return clean;
    hasRun = true;
    clean = effect();
    return clean;
  }, deps);
}
