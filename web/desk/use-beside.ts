import { useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { type Beside, readBeside } from './api.ts';

/**
 * What the desk keeps beside a case; null while nobody answered. Read again by `read`, and whenever `seen` changes; without
 * a network what was read last stays.
 */
export function useBeside(base: string, seen = 0): { beside: Beside | null; read: () => void } {
  const [beside, setBeside] = useState<Beside | null>(null);
  const read = (): void => void readBeside(base).then(setBeside, () => {});
  useEffect(read, [base, seen]);
  return { beside, read };
}
