// @ts-check
// Keeps the app on the phone. The server puts one line in front of this file: self.BUILD = {
// version, files }, every file of this version with its hash. One version, one cache, never a
// mixture; the version is the hash of the whole, so it changes when a byte does and not otherwise.
// The address of this file is /sw.js for ever.
/* eslint-env serviceworker */

const { version, files } = /** @type {{ version: string, files: Record<string, string> }} */ (
  /** @type {any} */ (self).BUILD
);
const PREFIX = 'hobside-';
const CACHE = PREFIX + version;
const sw = /** @type {any} */ (self);

sw.addEventListener('install', (/** @type {any} */ event) => {
  event.waitUntil(
    (async () => {
      const cache = await caches.open(CACHE);
      for (const [url, integrity] of Object.entries(files)) {
        if (await cache.match(url)) continue; // an install cut short goes on where it stopped
        // integrity: a file of another build fails the install, and the version before stays whole.
        // One at a time, for a weak signal.
        const res = await fetch(url, { cache: 'no-cache', integrity });
        if (!res.ok || res.redirected) throw new Error(`precache ${url}: ${res.status}`);
        await cache.put(url, res);
      }
    })(),
  );
});

sw.addEventListener('activate', (/** @type {any} */ event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys())
        if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
      // the very first visit too may be reloaded with no network, and hears of the next release
      await sw.clients.claim();
    })(),
  );
});

// When the cook says so, and never under a running timer.
sw.addEventListener('message', (/** @type {any} */ event) => {
  if (event.data === 'use-new-version') event.waitUntil(sw.skipWaiting());
});

/** @type {Promise<Cache> | undefined} */
let opened; // looking the cache up again for each of thirty files is felt at a cold start

sw.addEventListener('fetch', (/** @type {any} */ event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (
    request.method !== 'GET' ||
    url.origin !== location.origin ||
    url.pathname.startsWith('/api/')
  )
    return;
  const path = request.mode === 'navigate' && url.pathname === '/' ? '/' : url.pathname;
  if (!(path in files)) return;
  event.respondWith(
    (async () => {
      try {
        const cache = await (opened ??= caches.open(CACHE));
        return (await cache.match(path)) ?? fetch(request);
      } catch {
        opened = undefined; // it could not be opened this time: try again at the next file
        return (await caches.match(path, { cacheName: CACHE })) ?? fetch(request);
      }
    })(),
  );
});

// A notice tapped: show the step, in a tab that is there already if one is.
sw.addEventListener('notificationclick', (/** @type {any} */ event) => {
  event.notification.close();
  event.waitUntil(
    (async () => {
      const [page] = await sw.clients.matchAll({ type: 'window', includeUncontrolled: true });
      if (page) await page.focus();
      else await sw.clients.openWindow('/');
    })(),
  );
});
