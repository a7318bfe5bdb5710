// @ts-check
// The service worker of `dev serve`: it keeps nothing and answers nothing, so that every file comes
// from the disk. A worker of a release that was here before is replaced at once and its files go.
const sw = /** @type {any} */ (self);

sw.addEventListener('install', () => sw.skipWaiting());

sw.addEventListener('activate', (/** @type {any} */ event) => {
  event.waitUntil(
    (async () => {
      const kept = (await caches.keys()).filter((name) => name.startsWith('hobside-'));
      for (const name of kept) await caches.delete(name);
      await sw.clients.claim();
      if (kept.length === 0) return;
      // The pages that are open came from those files.
      for (const page of await sw.clients.matchAll({ type: 'window' })) page.navigate(page.url);
    })(),
  );
});
