import { useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';

const EVERY_MS = 30_000;

/**
 * A number that changes twice a minute and whenever the page is looked at again: a lock or a shut valve is trusted for so
 * long only, whether or not anything is touched on the screen meanwhile.
 */
export function useNowAndThen(): number {
  const [times, setTimes] = useState(0);
  useEffect(() => {
    const again = (): void => setTimes((before) => before + 1);
    const timer = setInterval(again, EVERY_MS);
    const looked = ['visibilitychange', 'pageshow', 'focus'] as const;
    for (const event of looked) addEventListener(event, again);
    return () => {
      clearInterval(timer);
      for (const event of looked) removeEventListener(event, again);
    };
  }, []);
  return times;
}
