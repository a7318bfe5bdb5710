// @ts-check
/**
 * Keep the screen awake at the stove. The browser drops the lock whenever the page is hidden, so it is taken again each
 * time it comes back (W3C Screen Wake Lock, "handling document loss of visibility"). Where there is no such lock, a tiny
 * picture that plays holds most phones awake; it may begin at a touch and not before.
 * @module
 */
import { effect, signal } from './html.js';
import { route } from './router.js';

const can = 'wakeLock' in navigator;
/** Whether the screen is held awake: "on", "off", or "video" by a playing picture, "none" where the browser can do neither. */
export const awake = signal(can ? 'off' : 'none');

/** @type {WakeLockSentinel | null} */
let lock = null;
/** @type {HTMLVideoElement | null} */
let video = null;
let cooking = false;

async function hold() {
  if (!cooking || document.hidden) return;
  if (!can) { play(); return; }
  if (lock) return;
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

/** A few dots, drawn once a second, as a video in the corner that nobody sees. */
function picture() {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = 2;
  const pen = canvas.getContext('2d');
  const el = document.createElement('video');
  el.muted = el.loop = el.playsInline = true;
  el.className = 'awake';
  el.setAttribute('aria-hidden', 'true');
  el.srcObject = canvas.captureStream(1);
  let n = 0;
  setInterval(() => {
    if (!pen || el.paused) return;
    pen.fillStyle = n++ % 2 ? '#000' : '#111';
    pen.fillRect(0, 0, 2, 2);
  }, 1000);
  document.body.append(el);
  return el;
}

async function play() {
  try {
    video ??= picture();
    await video.play();
    awake.value = 'video';
  } catch { awake.value = 'none'; } // not before a touch, or not at all
}

function release() {
  lock?.release();
  if (!video || video.paused) return;
  video.pause();
  awake.value = 'none';
}

/** Hold it on the cook screens, let go elsewhere. */
export function startWake() {
  document.addEventListener('visibilitychange', hold);
  if (!can) addEventListener('pointerup', () => { if (awake.peek() !== 'video') hold(); }, { passive: true });
  effect(() => {
    const at = route.value.at;
    cooking = at === 'step' || at === 'making';
    if (cooking) hold(); else release();
  });
}
