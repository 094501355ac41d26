/** A note begun and not written down yet, by case: it outlives the screen, in this tab only. */

const KEY = 'gaugewalk-note ';

export const draftOf = (base: string): string => sessionStorage.getItem(KEY + base) ?? '';

export function keepDraft(base: string, text: string): void {
  if (text === '') sessionStorage.removeItem(KEY + base);
  else sessionStorage.setItem(KEY + base, text);
}

export function forgetDrafts(): void {
  for (const key of Object.keys(sessionStorage)) {
    if (key.startsWith(KEY)) sessionStorage.removeItem(key);
  }
}
