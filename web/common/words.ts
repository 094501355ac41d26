import { createContext, useContext } from 'hono/jsx/dom';
import type { Say } from './say.ts';

export type { Say } from './say.ts';

/** The words of the reader's language, for every component. */
export const SayContext = createContext<Say>((key) => key);
export const useSay = (): Say => useContext(SayContext);
