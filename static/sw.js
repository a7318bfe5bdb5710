// @ts-check
// Keeps the app on the phone. The server puts one line in front of this file: self.BUILD = {
// version, files, later }, every file of this version with its hash; those of later are kept when
// they are first used. One version, one cache, never a mixture; the version is the hash of the
// whole, so it changes when a byte does and not otherwise. The address of this file is /sw.js for
// ever.
/* eslint-env serviceworker */

/** @typedef {Record<string, string>} Files hashes by address */
const { version, files, later } = /** @type {{ version: string, files: Files, later: Files }} */ (
  /** @type {any} */ (self).BUILD
);
const PREFIX = 'hobside-';
const CACHE = PREFIX + version;
const sw = /** @type {any} */ (self);

sw.addEventListener('install', (/** @type {any} */ event) => {
  event.waitUntil(
    (async () => {
      const cache = await caches.open(CACHE);
      const wanted = { ...files };
      for (const url of Object.keys(later)) {
        // what the version before has used is there for this one too
        if (await usedBefore(url)) wanted[url] = later[url];
      }
      for (const [url, integrity] of Object.entries(wanted)) {
        if (await cache.match(url)) continue; // an install cut short goes on where it stopped
        // One at a time, for a weak signal.
        await keep(cache, url, integrity);
      }
    })(),
  );
});

/**
 * Fetch a file of this version and keep it. Integrity: a file of another build is refused, and the
 * version before stays whole.
 * @param {Cache} cache @param {string} url @param {string} integrity
 * @returns {Promise<Response>} the same file, to be read
 */
async function keep(cache, url, integrity) {
  const res = await fetch(url, { cache: 'no-cache', integrity });
  if (!res.ok || res.redirected) throw new Error(`precache ${url}: ${res.status}`);
  const copy = res.clone();
  await cache.put(url, res);
  return copy;
}

/** Whether another version of the app has used a file. @param {string} url */
async function usedBefore(url) {
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== CACHE && (await (await caches.open(name)).match(url)))
      return true;
  }
  return false;
}

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
  if (!(path in files) && !(path in later)) return;
  event.respondWith(
    (async () => {
      try {
        const cache = await (opened ??= caches.open(CACHE));
        const kept = await cache.match(path);
        if (kept) return kept;
        if (path in later) return await keep(cache, path, later[path]);
        return fetch(request);
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
