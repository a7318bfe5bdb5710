// @ts-check
/**
 * What foods consist of. The file is fetched when somebody first asks for nutrition, and kept from
 * then on; the engine gets it once, and again when it was started again.
 * @module
 */
import { effect, signal } from './html.js';
import { call, restarts } from './ask.js';

const FILE = '/composition.txt';

/** Whether the engine has it. */
export const composed = signal(false);
/** Why it has not, in words for the cook. */
export const composeTrouble = signal('');

let text = '';
/** @type {Promise<void> | null} */
let turn = null;

/** Fetch it and give it to the engine, unless that is done. */
export function compose() {
  turn ??= give().finally(() => {
    turn = null;
  });
  return turn;
}

async function give() {
  if (composed.peek()) return;
  try {
    text ||= await fetched();
    await call('compositions', { text });
    composed.value = true;
    composeTrouble.value = '';
  } catch (err) {
    composeTrouble.value = text
      ? err instanceof Error
        ? err.message
        : String(err)
      : 'What foods consist of is not on this phone yet. It is fetched once, when the server can be reached.';
  }
}

async function fetched() {
  const res = await fetch(FILE);
  if (!res.ok) throw new Error('the server answered ' + res.status);
  const workers = navigator.serviceWorker;
  // On the very first visit nothing keeps what is fetched: fetch it again when something does.
  if (workers && !workers.controller)
    workers.addEventListener('controllerchange', () => fetch(FILE).catch(() => {}), { once: true });
  return res.text();
}

// An engine that was started again has lost it.
effect(() => {
  if (!restarts.value || !text) return;
  composed.value = false;
  compose();
});
