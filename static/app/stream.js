// @ts-check
/**
 * The stream: the server says that there is something new, and sends it along where that is little.
 * @module
 */
import { effect } from './html.js';
import { adopt, further } from './answer.js';
import { now } from './clock.js';
import { meta, save } from './db.js';
import { apply } from './follow.js';
import { Retry } from './retry.js';
import { eventsCame, heard, net } from './server.js';
import { broadcast, leading } from './tabs.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {{ epoch: string, seq: string, from?: string, events?: Event[] }} Message */

/** @type {EventSource | null} */
let stream = null;
/** @type {() => void} fetches what is new */
let fetchNow = () => {};
const retry = new Retry(() => {
  if (leading.peek() && !stream) listen();
});

/**
 * Listen while this tab talks to the server.
 * @param {() => void} fetching fetches what is new
 */
export function startStream(fetching) {
  fetchNow = fetching;
  effect(() => {
    if (leading.value) {
      listen();
      fetchNow();
    } else {
      stream?.close();
      stream = null;
    }
  });
}

function listen() {
  stream?.close();
  const at = new URLSearchParams({ epoch: meta.epoch, after: meta.cursor });
  const own = (stream = new EventSource('/api/stream?' + at));
  stream.addEventListener('changed', (event) => {
    retry.succeeded();
    /** @type {Message | null} */
    let message = null;
    try {
      message = JSON.parse(event.data);
    } catch {
      /* fetch to see */
    }
    // what can't be put on disk now is fetched when it can
    taking = taking.then(() => take(message)).catch(fetchNow);
  });
  stream.onopen = () => {
    retry.succeeded();
    fetchNow();
  };
  stream.onerror = () => {
    // is the server there at all? the status must not say so for long
    if (own === stream && net.peek() !== 'off') fetchNow();
    if (own !== stream || own.readyState !== EventSource.CLOSED) return; // it tries again by itself
    stream = null;
    retry.failed();
  };
}

/** Messages are taken one after another. */
let taking = Promise.resolve();

/**
 * Take what is new from a message, where that is little and follows on what this phone has. All
 * else is fetched.
 * @param {Message | null} message
 */
async function take(message) {
  if (!message) return fetchNow();
  if (message.epoch === meta.epoch && !further(message.seq, meta.cursor)) return; // known already
  if (
    message.epoch !== meta.epoch ||
    message.from === undefined ||
    further(message.from, meta.cursor)
  )
    return fetchNow();
  /** @type {Event[]} */ const news = [];
  let held = false;
  await save(['events', 'meta'], async (tx) => {
    const kept = tx.objectStore('meta');
    held =
      (await kept.get('epoch')) === message.epoch &&
      !further(message.from ?? '0', (await kept.get('cursor')) ?? '0');
    if (!held) return; // the cursor went back meanwhile
    await adopt(tx, message.events ?? [], news);
    if (further(message.seq, await kept.get('cursor'))) kept.put(message.seq, 'cursor');
  });
  if (!held) return fetchNow();
  if (further(message.seq, meta.cursor)) meta.cursor = message.seq;
  net.value = 'on';
  heard.value = now();
  if (!news.length) return;
  eventsCame.value++;
  broadcast({ events: news, net: 'on' });
  apply(news);
}
