// @ts-check
/**
 * A step read aloud, by a voice that is on the phone: it works with no network, and nothing said
 * leaves the kitchen.
 * @module
 */
import { signal } from './html.js';

/** Whether something is being said. */
export const speaking = signal(false);
/** Why nothing can be, in words; "" while that is not known. */
export const mute = signal('');

/** Whether this browser can speak at all. */
export const canSpeak = () => 'speechSynthesis' in globalThis;

if (canSpeak()) speechSynthesis.getVoices(); // some browsers load them only when asked

/**
 * The voices. A browser that has not loaded them yet says when it has.
 * @returns {Promise<SpeechSynthesisVoice[]>}
 */
async function voices() {
  if (speechSynthesis.getVoices().length === 0) {
    await new Promise((loaded) => {
      speechSynthesis.addEventListener('voiceschanged', loaded, { once: true });
      setTimeout(loaded, 1000);
    });
  }
  return speechSynthesis.getVoices();
}

/** Say it; said again while it speaks, stop. @param {string} text */
export async function speak(text) {
  if (!canSpeak()) return;
  if (speaking.peek()) {
    speechSynthesis.cancel();
    speaking.value = false;
    return;
  }
  // A voice of the network would be silent without one, and would hear what is cooked.
  const here = (await voices()).filter((v) => v.localService);
  const v = here.find((x) => x.lang.startsWith('en')) ?? here[0];
  mute.value = v
    ? ''
    : 'This phone has no voice of its own to read with. Its settings may offer one to load.';
  if (!v) return;
  const u = new SpeechSynthesisUtterance(text);
  [u.voice, u.lang, u.rate] = [v, v.lang, 0.95];
  u.onend = u.onerror = () => {
    speaking.value = false;
  };
  speaking.value = true;
  speechSynthesis.speak(u);
}
