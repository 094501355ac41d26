import { useState } from 'hono/jsx/dom';
import { useEffect } from './use-effect.ts';

/** A wet finger bounces and a key held down repeats; nobody has read anything sooner than this. */
const DEAD_MS = 400;

/**
 * Whether what stands on the screen has stood there long enough to be acted upon. Each new `what` begins anew, so a
 * second tap that falls on a button just drawn does nothing.
 */
export function useArmed(what: string | object): boolean {
  const [armedFor, setArmedFor] = useState<string | object | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setArmedFor(what), DEAD_MS);
    return () => clearTimeout(timer);
  }, [what]);
  return armedFor === what;
}

/** For the whole page's `keydown`: a button under a key held down is pressed once. */
export function onceAKey(event: KeyboardEvent): void {
  if (event.repeat && event.target instanceof HTMLButtonElement) event.preventDefault();
}
