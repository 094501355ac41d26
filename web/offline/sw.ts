/// <reference lib="webworker" />

/**
 * Keeps every file of the client, so that it starts, asks, judges and leads through a job without a network. One cache
 * per version; a new version is fetched whole and waits until no page of the old one is open, so files never mix.
 */
const scope = self as unknown as ServiceWorkerGlobalScope;

interface Shell {
  readonly version: string;
  readonly files: readonly string[];
}

const cacheName = (version: string): string => `gaugewalk-${version}`;

scope.addEventListener('install', (event) => {
  event.waitUntil(
    (async () => {
      const shell = (await (await fetch('/offline.json', { cache: 'no-store' })).json()) as Shell;
      const cache = await caches.open(cacheName(shell.version));
      await cache.addAll(shell.files.map((file) => new Request(file, { cache: 'no-cache' })));
      await cache.put('/offline.json', new Response(JSON.stringify(shell)));
    })(),
  );
});

scope.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      const newest = (await caches.keys()).filter((name) => name.startsWith('gaugewalk-')).at(-1);
      for (const name of await caches.keys()) {
        if (name.startsWith('gaugewalk-') && name !== newest) await caches.delete(name);
      }
      await scope.clients.claim();
    })(),
  );
});

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== scope.location.origin) return;
  if (/^\/(api|health|ready|metrics|openapi\.json|problems)(\/|$)/.test(pathname)) return;
  event.respondWith(answer(request));
});

/** What is kept first; pages all come from the one page. Whatever is not kept is asked of the network. */
async function answer(request: Request): Promise<Response> {
  const kept = await caches.match(request.mode === 'navigate' ? '/index.html' : request);
  return kept ?? fetch(request);
}
