import { lazy, Nothing } from '../lazy.tsx';

/** Only a case in which work was done needs it, so it does not weigh on the first load. */
export const AfterWork = lazy(
  () => import('../desk/beside-case.ts').then((file) => file.AfterWork),
  Nothing,
);
