/** Lets the service worker keep the client for times without a network; browsers without one still work online. */
export function registerOffline(): void {
  if (!('serviceWorker' in navigator)) return;
  addEventListener('load', registered);
  if (document.readyState === 'complete') registered();
}

function registered(): void {
  void navigator.serviceWorker.register('/sw.js').catch(() => {
    // refused by the browser (private window, storage full): the client works, only not without a network
  });
}
