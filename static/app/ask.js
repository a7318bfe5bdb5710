// @ts-check
/**
 * The engine, from the page's side. It lives in a worker and may take a second to wake; a call made
 * before then waits. Nothing on the screen may depend on an answer to show what was last known.
 * @module
 */
import { signal } from './html.js';

/** @typedef {import('./engine.d.ts').Calls} Calls */

/** "waking", "ready", or what went wrong in words for the cook. */
export const engine = signal('waking');

/** @type {Worker} */
let worker;
/** @type {() => void} */
let wake = () => {};
/** @type {Promise<void>} */
const awake = new Promise((resolve) => {
  wake = resolve;
});
/** @type {Map<number, { resolve: (json: string) => void, reject: (err: Error) => void }>} */
const asked = new Map();
let count = 0;

/** Wake the engine. Called once, after the first paint. */
export function startEngine() {
  worker = new Worker('/app/worker.js');
  worker.onmessage = ({ data }) => {
    if (data.ready) {
      engine.value = 'ready';
      wake();
    } else if (data.failed) {
      engine.value = data.failed;
      for (const { reject } of asked.values()) reject(new Error(data.failed));
      asked.clear();
    } else {
      const waiting = asked.get(data.id);
      asked.delete(data.id);
      waiting?.resolve(data.json);
    }
  };
  worker.onerror = () => {
    engine.value = 'the engine could not be loaded; reload the page, nothing is lost';
  };
}

/**
 * Ask the engine and keep its answer as the text it came as.
 * @param {string} method @param {unknown} call
 * @returns {Promise<string>}
 */
export async function ask(method, call) {
  await awake;
  const id = ++count;
  return new Promise((resolve, reject) => {
    asked.set(id, { resolve, reject });
    worker.postMessage({ id, method, json: JSON.stringify(call) });
  });
}

/**
 * Ask the engine. Throws what it says when it can't.
 * @template {keyof Calls} M
 * @param {M} method @param {Calls[M][0]} call
 * @returns {Promise<Calls[M][1]>}
 */
export async function call(method, call) {
  return read(await ask(method, call));
}

/** An answer read; a failure thrown. @param {string} json @returns {any} */
export function read(json) {
  const answer = JSON.parse(json);
  if (answer && typeof answer.error === 'string') throw new Error(answer.error);
  return answer;
}
