// @ts-check
/**
 * A step read aloud, by a voice that is on the phone: it works with no network, and nothing said leaves the kitchen.
 * @module
 */
import { signal } from './html.js';

/** Whether something is being said. */
export const speaking = signal(false);

/** A voice of this device, in the card's language; null when there is none. */
function voice() {
  const here = speechSynthesis.getVoices().filter((v) => v.localService);
  return here.find((v) => v.lang.startsWith('en')) ?? here[0] ?? null;
}

/** Whether this browser can speak at all. */
export const canSpeak = () => 'speechSynthesis' in globalThis;

/** Say it; said again while it speaks, stop. @param {string} text */
export function speak(text) {
  if (!canSpeak()) return;
  if (speaking.peek()) {
    speechSynthesis.cancel();
    speaking.value = false;
    return;
  }
  const u = new SpeechSynthesisUtterance(text);
  const v = voice();
  if (v) [u.voice, u.lang] = [v, v.lang];
  else u.lang = 'en';
  u.rate = 0.95;
  u.onend = u.onerror = () => { speaking.value = false; };
  speaking.value = true;
  speechSynthesis.speak(u);
}
