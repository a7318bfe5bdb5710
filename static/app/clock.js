// @ts-check
/**
 * The time of day. Timers are end times on the wall clock, never counters, so that sleep, reload
 * and a flat battery cannot make them wrong; this module only says what time it is and wakes what
 * shows it.
 * @module
 */
import { signal } from './html.js';
import { meta } from './db.js';

/** Unix milliseconds, put right by what the server taught this phone. */
export const now = () => Date.now() + meta.offset;

/** The time, once a second while the page is visible. */
export const second = signal(now());
/** The time to the minute, for what need not change every second. */
export const minute = signal(Math.floor(now() / 60000) * 60000);

function beat() {
  const t = now();
  second.value = t;
  minute.value = Math.floor(t / 60000) * 60000;
}

/** Start the clock. It stops while the page is hidden, and is right again when it is shown. */
export function startClock() {
  /** @type {ReturnType<typeof setTimeout>} */
  let timer;
  const go = () => {
    clearTimeout(timer);
    beat();
    // hidden pages are slowed by the browser itself; rings still come
    timer = setTimeout(go, 1000 - (now() % 1000));
  };
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) go();
  });
  addEventListener('pageshow', go);
  go();
}
