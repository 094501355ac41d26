import type { Logger } from 'pino';
import type { Person } from '../store/repositories/people.ts';
import type { Store } from '../store/store.ts';
import type { Auth } from './auth.ts';
import type { Judge } from './judge.ts';
import type { Metrics } from './metrics.ts';

export interface Limits {
  /** new cases from one address in ten minutes */
  readonly casesPerTenMinutes: number;
  /** sign-in attempts from one address, and for one e-mail, in ten minutes */
  readonly signInsPerTenMinutes: number;
}

/** All a request may use; handed to the app, so that tests choose clock, store and diagnosis. */
export interface Deps {
  readonly store: Store;
  readonly judge: Judge;
  readonly auth: Auth;
  readonly log: Logger;
  readonly metrics: Metrics;
  readonly clock: () => Date;
  readonly newRef: () => string;
  readonly newToken: () => string;
  readonly limits: Limits;
  /** keys the counts of addresses, so that no address is stored */
  readonly secret: string;
  readonly trustProxy: boolean;
  /** the origin people see, e.g. https://water.example.org */
  readonly publicUrl: string;
  /** true when state changes are to be told to a webhook */
  readonly webhook: boolean;
  /** the built web client, or undefined */
  readonly webDir?: string | undefined;
  /** aborted when the server is stopping */
  readonly stopping: AbortSignal;
}

export interface AppEnv {
  Variables: {
    requestId: string;
    /** set behind the desk's door */
    person: Person;
  };
}
