/** Below the middle a heading leaves no room for what is under it. */
const LOWEST = 0.6;

/**
 * Scrolls to what is to be read now, and only where it is not in sight already: above the window or under what sticks to
 * its top, or so far down that its answers are not seen.
 */
export function bringIntoView(selector: string): void {
  const element = document.querySelector(selector);
  if (!element) return;
  const { top } = element.getBoundingClientRect();
  const margin = Number.parseFloat(getComputedStyle(element).scrollMarginTop) || 0;
  if (top < margin || top > innerHeight * LOWEST) element.scrollIntoView({ block: 'start' });
}
