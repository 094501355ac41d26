import type { Page } from 'playwright-core';

/**
 * How long a way through the screens takes somebody who goes it for the first time.
 *
 * Keystroke-Level Model (Card, Moran & Newell 1983, The Psychology of Human-Computer Interaction; values from memory):
 * M to think before an act, P to point, K to press, with K of an average typist who is no secretary, H to bring the hand
 * to the keys and back. Reading: 200 words a minute (common practice for prose read with care).
 */
const SECONDS = { think: 1.35, point: 1.1, press: 0.28, hand: 0.4 };
const WORDS_A_MINUTE = 200;

/** What somebody did on the way, and what they had to read for it. */
export interface Way {
  readonly touches: number;
  /** of these, the ones fully foreseen in the touch before ("Add" after what to add): rule 2 of the model, no new thought */
  readonly foreseen: number;
  /** pieces of text typed, each foreseen in the touch of its field, and the characters of all of them */
  readonly typed: { readonly times: number; readonly characters: number };
  readonly words: number;
}

/** Seconds: each touch is thought of, aimed and pressed; each text typed between two moves of the hand. */
export function secondsFor({ touches, foreseen, typed, words }: Way): number {
  const { think, point, press, hand } = SECONDS;
  return (
    (touches - foreseen) * think +
    touches * (point + press) +
    typed.times * 2 * hand +
    typed.characters * press +
    (words / WORDS_A_MINUTE) * 60
  );
}

/**
 * The words of a page that have been in the window, which is all above its lower edge: nobody gets to a button without
 * passing what stands before it. Each label counts once: who has read "later" on one row does not read it on the next.
 * Of a list to choose from, what stands chosen is seen; the rest when it is opened.
 */
export async function wordsOn(page: Page, read: Set<string>): Promise<number> {
  const labels = await page.evaluate(() => {
    const found: string[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const option = node.parentElement?.closest('option');
      if (option && !option.selected) continue;
      const holder = option ? option.closest('select') : node.parentElement;
      if (!holder?.checkVisibility() || holder.closest('.visually-hidden')) continue;
      if (holder.getBoundingClientRect().top > innerHeight) continue;
      if (node.textContent?.trim()) found.push(node.textContent.trim());
    }
    return found;
  });
  return newWords(labels, read);
}

/** How many words there are in labels that were not read before; they are from now on. */
export function newWords(labels: readonly string[], read: Set<string>): number {
  const fresh = [...new Set(labels)].filter((label) => !read.has(label));
  for (const label of fresh) read.add(label);
  return fresh.join(' ').split(/\s+/).filter(Boolean).length;
}
