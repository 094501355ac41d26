import { useState } from 'hono/jsx/dom';
import { useEffect } from './use-effect.ts';

/** The address decides the screen; links are plain links, so they can be opened, sent and gone back from. */
export function usePath(): string {
  const [path, setPath] = useState(location.pathname);
  useEffect(() => {
    const change = (): void => setPath(location.pathname);
    addEventListener('popstate', change);
    addEventListener('gaugewalk-path', change);
    return () => {
      removeEventListener('popstate', change);
      removeEventListener('gaugewalk-path', change);
    };
  }, []);
  return path;
}

export function goTo(path: string): void {
  if (path === location.pathname) return;
  history.pushState(null, '', path);
  dispatchEvent(new Event('gaugewalk-path'));
  scrollTo(0, 0);
}

/** For `<a href>`: a plain click stays in the page, anything else is the browser's. */
export function onLink(event: MouseEvent): void {
  const link = event.currentTarget as HTMLAnchorElement;
  if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey) return;
  event.preventDefault();
  goTo(new URL(link.href).pathname);
}
