import { useState } from 'hono/jsx/dom';
import { useEffect } from './use-effect.ts';

/** The same width at which the styles set conversation and drawing side by side. */
const WIDE = '(min-width: 62rem)';

/** Whether everything stands side by side; where it does not, only what is looked at needs drawing. */
export function useWide(): boolean {
  const [isWide, setWide] = useState(() => matchMedia(WIDE).matches);
  useEffect(() => {
    const watched = matchMedia(WIDE);
    const change = (): void => setWide(watched.matches);
    watched.addEventListener('change', change);
    return () => watched.removeEventListener('change', change);
  }, []);
  return isWide;
}
