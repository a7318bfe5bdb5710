// @ts-check
/**
 * The engine, from the page's side. It runs in a worker and may take a second to start; a call made
 * before then waits.
 * Nothing on the screen may depend on an answer to show what was last known.
 *
 * A worker that stops is started again, after a pause and a few times at most. If it stopped over
 * several files, the new
 * one first reads each of them alone; a file that stops it then is left out (suspects.js).
 * @module
 */
import { signal } from './html.js';
import { Retry } from './retry.js';
import { cleared, leaveOut, mayRead, read as allRead, reading, suspected } from './suspects.js';

/** @typedef {import('./engine.d.ts').Calls} Calls */
/** @typedef {import('./suspects.js').File} File */
/**
 * @typedef {object} Question
 * @property {number} id
 * @property {string} method
 * @property {string} json
 * @property {File[]} files the files that the engine reads for it
 * @property {boolean} alone whether it only tries one file
 * @property {(json: string) => void} resolve
 * @property {(err: Error) => void} reject
 */

/**
 * How long the engine may take over one call, in milliseconds. The longest that is known takes a
 * tenth of it on a slow phone.
 */
const PATIENCE = 60_000;
/** How often the engine may stop before it is given up, when no file can be left out. */
const MOST_STOPS = 5;
/** After so many milliseconds of running, earlier stops count no more. */
const SETTLED = 120_000;

/** "starting", "ready", or what went wrong in words for the cook. */
export const engine = signal('starting');
/** Counts the restarts: the engine then has neither the library nor the open dinner. */
export const restarts = signal(0);

/** @type {Worker | null} */
let worker = null;
/** @type {Question[]} those to come, in order */
let waiting = [];
/** @type {Question | null} the one that the engine is at */
let current = null;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let silence;
let count = 0,
  stops = 0,
  started = 0,
  lost = false;
const again = new Retry(start, { first: 500, most: 30_000 });

/** Start the engine. Called once, after the first paint. */
export function startEngine() {
  start();
  addEventListener('online', () => {
    if (!worker && stops >= MOST_STOPS) {
      stops = 0;
      again.after(0);
    }
  });
}

function start() {
  const own = (worker = new Worker('/app/worker.js'));
  engine.value = 'starting';
  started = performance.now();
  own.onmessage = ({ data }) => {
    if (own !== worker) return;
    if (data.ready) {
      engine.value = 'ready';
      if (lost) restarts.value++;
      lost = false;
      next();
    } else if (data.failed) {
      stopped(data.failed);
    } else if (current?.id === data.id) {
      const { resolve, files } = /** @type {Question} */ (current);
      clearTimeout(silence);
      if (files.length) allRead();
      current = null;
      resolve(data.json);
      next();
    }
  };
  own.onerror = () => {
    if (own === worker) stopped('the engine stopped');
  };
}

/**
 * Give the engine the next call. It takes one at a time: so it is known over which one it stopped.
 */
function next() {
  if (current || engine.peek() !== 'ready') return;
  const question = waiting.shift();
  if (!question) return;
  current = question;
  const { id, method, json, files } = question;
  if (files.length) reading(files);
  silence = setTimeout(() => stopped('the engine did not answer'), PATIENCE);
  worker?.postMessage({ id, method, json });
}

/** The worker stopped, or could not be started. @param {string} why */
function stopped(why) {
  worker?.terminate();
  worker = null;
  clearTimeout(silence);
  allRead();
  const over = current;
  current = null;
  if (performance.now() - started > SETTLED) {
    stops = 0;
    again.succeeded();
  }
  stops++;
  if (over) {
    // What the engine held is gone with it: the callers ask anew when it is ready again.
    rejectAll(
      waiting.filter((q) => !q.alone),
      why,
    );
    waiting = waiting.filter((q) => q.alone);
    if (over.files.length === 1) {
      leaveOut(over.files[0]);
      stops = 0;
    } else {
      waiting.push(...over.files.map(alone));
    }
  }
  lost ||= engine.peek() === 'ready';
  over?.reject(new Error(why));
  if (stops >= MOST_STOPS) {
    engine.value = why + '; reload the page, nothing is lost';
    rejectAll(waiting, engine.peek());
    waiting = [];
    return;
  }
  engine.value = 'starting';
  again.failed();
}

/** @param {Question[]} questions @param {string} why */
function rejectAll(questions, why) {
  for (const { reject } of questions) reject(new Error(why));
}

/**
 * A question that makes the engine read one file and keeps nothing of it.
 * @param {File} file
 * @returns {Question}
 */
function alone(file) {
  return {
    id: ++count,
    method: 'read',
    json: JSON.stringify({ name: file.name, text: file.text || ' ' }),
    files: [file],
    alone: true,
    resolve() {},
    reject() {},
  };
}

/**
 * Ask the engine and keep its answer as the text it came as.
 * @param {string} method @param {unknown} call
 * @param {File[]} [files] the files that it reads for this call
 * @returns {Promise<string>}
 */
export function ask(method, call, files = []) {
  if (stops >= MOST_STOPS) return Promise.reject(new Error(engine.peek()));
  if (!files.every(mayRead))
    return Promise.reject(
      new Error('this text stopped the engine: make it shorter or split it in two'),
    );
  if (suspected(files)) {
    waiting.push(...files.map(alone));
    cleared();
  }
  return new Promise((resolve, reject) => {
    waiting.push({
      id: ++count,
      method,
      json: JSON.stringify(call),
      files,
      alone: false,
      resolve,
      reject,
    });
    next();
  });
}

/**
 * Ask the engine. Throws Failed with what it says when it can't.
 * @template {keyof Calls} M
 * @param {M} method
 * @param {Calls[M][0]} call
 * @param {File[]} [files] the files that it reads for this call
 * @returns {Promise<Calls[M][1]>}
 */
export async function call(method, call, files) {
  return read(await ask(method, call, files));
}

/** What the engine says when it can't do a call. */
export class Failed extends Error {
  /** @param {import('./engine.d.ts').Failure} failure */
  constructor(failure) {
    super(failure.error);
    /** the texts of which one is meant, where what was typed can be read in two ways */
    this.meant = failure.meant ?? [];
  }
}

/** An answer read; a failure thrown. @param {string} json @returns {any} */
export function read(json) {
  const answer = JSON.parse(json);
  if (answer && typeof answer.error === 'string') throw new Failed(answer);
  return answer;
}
