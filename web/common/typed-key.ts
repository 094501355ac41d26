/** The key that was pressed alone, outside any field; null for all else. */
export function loneKey(event: KeyboardEvent): string | null {
  const { altKey, ctrlKey, metaKey, target, key } = event;
  return altKey || ctrlKey || metaKey || isTyping(target) ? null : key;
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && /^(input|select|textarea)$/i.test(target.tagName);
}
