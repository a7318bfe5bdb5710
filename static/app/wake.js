// @ts-check
/**
 * Keep the screen awake at the stove. The browser drops the lock whenever the page is hidden, so it is taken again each
 * time it comes back (W3C Screen Wake Lock, "handling document loss of visibility").
 * @module
 */
import { effect, signal } from './html.js';
import { route } from './router.js';

/** Whether the screen is held awake: "on", "off", or "none" where the browser can't. */
export const awake = signal('wakeLock' in navigator ? 'off' : 'none');

/** @type {WakeLockSentinel | null} */
let lock = null;
let cooking = false;

async function hold() {
  if (!cooking || lock || document.hidden || awake.peek() === 'none') return;
  try {
    lock = await navigator.wakeLock.request('screen');
    awake.value = 'on';
    lock.addEventListener('release', () => {
      lock = null;
      awake.value = 'off';
    });
    if (!cooking) lock?.release();
  } catch { awake.value = 'off'; } // a flat battery or a rule of the phone: it says so on the settings page
}

/** Hold it on the cook screens, let go elsewhere. */
export function startWake() {
  document.addEventListener('visibilitychange', hold);
  effect(() => {
    const at = route.value.at;
    cooking = at === 'step' || at === 'making';
    if (cooking) hold(); else lock?.release();
  });
}
