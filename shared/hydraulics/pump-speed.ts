import { type HeadCurve, headAtSpeedM } from './pump.ts';
import { fallingRoot } from './root.ts';

/** No drive of a household pump goes past its rated speed. */
const FULL_SPEED = 1;

/**
 * Speed at which a pump gives a head at a flow, as a share of its full speed (affinity laws, s²·H(Q/s) = head).
 * @returns 0–1; 1 also where full speed is not enough
 */
export function speedFor(curve: HeadCurve, flowM3s: number, headM: number): number {
  if (headM <= 0) return 0;
  const tooMuchM = (slower: number) => headAtSpeedM(curve, flowM3s, FULL_SPEED - slower) - headM;
  return FULL_SPEED - fallingRoot(tooMuchM, 0, FULL_SPEED - 1e-6);
}
