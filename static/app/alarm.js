// @ts-check
/**
 * Being heard. The web has no alarm on a locked phone: what rings here rings while the page is on,
 * and the words on the screen say so. Sound must be unlocked by a touch (browsers' autoplay rules),
 * permission for notices is asked when the first timer is started and not before.
 * @module
 */
import { settings } from './settings.js';

/** @type {AudioContext | null} */
let audio = null;

function unlock() {
  try {
    audio ??= new AudioContext();
    if (audio.state === 'suspended') audio.resume();
  } catch {
    /* this browser has no sound: the screen and the vibration remain */
  }
}

/** Let the first touch or key unlock sound. */
export function startAlarm() {
  addEventListener('pointerdown', unlock, { passive: true });
  addEventListener('keydown', unlock);
}

/** Three short bell strokes. */
export function ring() {
  navigator.vibrate?.([300, 150, 300, 150, 600]);
  if (!audio || settings.sound.peek() !== 'on') return;
  for (let i = 0; i < 3; i++) stroke(audio, audio.currentTime + i * 0.45);
}

/** @param {AudioContext} a @param {number} at */
function stroke(a, at) {
  const gain = a.createGain();
  gain.gain.setValueAtTime(0, at);
  gain.gain.linearRampToValueAtTime(0.5, at + 0.01);
  gain.gain.exponentialRampToValueAtTime(0.001, at + 0.4);
  gain.connect(a.destination);
  for (const hz of [1318.5, 2637, 3560]) {
    // partials of a struck pan: not quite in tune, so that it carries over a fan
    const o = a.createOscillator();
    o.frequency.value = hz;
    o.connect(gain);
    o.start(at);
    o.stop(at + 0.45);
  }
}

/** Whether notices are possible here: "granted", "denied", "default" or "none". */
export const notices = () =>
  typeof Notification === 'undefined' ? 'none' : Notification.permission;

/** Ask once, at the first timer. */
export function askNotices() {
  if (notices() === 'default') Notification.requestPermission().catch(() => {});
}

/** A notice for when the page is not in front. @param {string} title @param {string} tag */
export async function notice(title, tag) {
  if (notices() !== 'granted') return;
  const body = 'Tap to see the step.';
  const registration = await navigator.serviceWorker?.getRegistration();
  if (registration)
    registration.showNotification(title, {
      body,
      tag,
      icon: '/icons/icon-192.png',
      requireInteraction: true,
    });
}
