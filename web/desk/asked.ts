import type { Asked } from './api.ts';

/** What the list of cases was asked for last, in this tab: who comes back from a case goes on where they were. */

const KEY = 'gaugewalk-list';
/** Narrowed by nothing. */
export const ALL: Asked = { search: '', state: '', priority: '', assigned: '' };

export const askedBefore = (): Asked => ({
  ...ALL,
  ...(JSON.parse(sessionStorage.getItem(KEY) ?? '{}') as Partial<Asked>),
});

/** Null: nobody is to know what was asked. */
export function keepAsked(asked: Asked | null): void {
  if (asked) sessionStorage.setItem(KEY, JSON.stringify(asked));
  else sessionStorage.removeItem(KEY);
}
