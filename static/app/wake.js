// @ts-check
/**
 * Keep the screen awake at the stove. The browser drops the lock whenever the page is hidden, so it
 * is taken again each time it comes back (W3C Screen Wake Lock, "handling document loss of
 * visibility"). Where there is no such lock, a tiny picture that plays holds most phones awake; it
 * may begin at a touch and not before.
 * @module
 */
import { effect } from './html.js';
import { route } from './router.js';

const can = 'wakeLock' in navigator;

/** @type {WakeLockSentinel | null} */
let lock = null;
/** @type {HTMLVideoElement | null} */
let video = null;
let cooking = false;

async function hold() {
  if (!cooking || document.hidden) return;
  if (!can) {
    play();
    return;
  }
  if (lock) return;
  try {
    lock = await navigator.wakeLock.request('screen');
    lock.addEventListener('release', () => {
      lock = null;
    });
    if (!cooking) lock?.release();
  } catch {
    /* refused for a low battery or by a setting: asked again when the page comes back */
  }
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
  } catch {
    /* not before a touch, or not at all: the settings page says what to do then */
  }
}

function release() {
  lock?.release();
  video?.pause();
}

/** Hold the lock on the cook screens and release it elsewhere. */
export function startWake() {
  document.addEventListener('visibilitychange', hold);
  if (!can)
    addEventListener(
      'pointerup',
      () => {
        if (!video || video.paused) hold();
      },
      { passive: true },
    );
  effect(() => {
    const at = route.value.at;
    cooking = at === 'step' || at === 'batch';
    if (cooking) hold();
    else release();
  });
}
