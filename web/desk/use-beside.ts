import { useRef, useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { type Beside, readBeside } from './api.ts';

/**
 * What the desk keeps beside a case; null while nobody answered. Read again by `read`, whenever `seen` changes, and when
 * the network is back; without one what was read last stays.
 */
export function useBeside(base: string, seen = 0): { beside: Beside | null; read: () => void } {
  const [beside, setBeside] = useState<Beside | null>(null);
  const turn = useRef(0);
  const read = (): void => {
    turn.current = (turn.current ?? 0) + 1;
    const mine = turn.current;
    // an answer to an earlier look must not come over that to a later one
    void readBeside(base).then(
      (seen) => mine === turn.current && setBeside(seen),
      () => {},
    );
  };
  useEffect(() => {
    read();
    addEventListener('online', read);
    return () => removeEventListener('online', read);
  }, [base, seen]);
  return { beside, read };
}
