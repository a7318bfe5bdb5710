// @ts-check
/**
 * A newer version of the app. The service worker fetches it in the background; it takes over when
 * the cook says so and at no other time: never under a running timer, never between two taps.
 * @module
 */
import { signal } from './html.js';
import { tryAgain } from './suspects.js';

/** Whether a newer version waits until the cook takes it. */
export const ready = signal(false);
/** Whether the app opens with no network: "yes", "not yet", or why it can't. */
export const offline = signal('not yet');

/** @type {ServiceWorkerRegistration | undefined} */
let registration;
let asked = false;

/** Register the worker and look for a newer one whenever the page comes to the front. */
export async function startUpdate() {
  if (!('serviceWorker' in navigator)) {
    offline.value =
      'this browser, or an address without https, cannot keep the app for offline use';
    return;
  }
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (asked) location.reload();
  });
  try {
    registration = await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
  } catch (err) {
    offline.value =
      'the app could not be kept for offline use: ' + (err instanceof Error ? err.message : err);
    return;
  }
  const look = () => {
    ready.value = !!registration?.waiting && !!navigator.serviceWorker.controller;
    if (registration?.active) offline.value = 'yes';
  };
  const watch = (/** @type {ServiceWorker | null} */ worker) =>
    worker?.addEventListener('statechange', look);
  watch(registration.installing);
  registration.addEventListener('updatefound', () => watch(registration?.installing ?? null));
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) registration?.update().catch(() => {});
  });
  navigator.serviceWorker.ready.then(look);
  look();
}

/**
 * The cook's word: use the newer version now. A browser lets the worker before finish what it is
 * at, and has been seen to take minutes over it; after a few seconds the old one is let go instead,
 * if there is a network to load the new one from. Its files are here already, so that costs one
 * page.
 */
export function useNewVersion() {
  asked = true;
  tryAgain(); // its engine may read what this one could not
  registration?.waiting?.postMessage('use-new-version');
  setTimeout(letGo, 4000);
}

async function letGo() {
  if (!registration?.waiting) return;
  try {
    const answer = await fetch('/healthz', { cache: 'no-store' });
    if (!answer.ok) return;
  } catch {
    return;
  } // no network: it takes as long as the browser takes
  await registration.unregister();
  location.reload();
}
