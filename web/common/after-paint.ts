/** Does it once the browser has painted what was changed so far. */
export function afterPaint(then: () => void): void {
  requestAnimationFrame(() => setTimeout(then));
}
