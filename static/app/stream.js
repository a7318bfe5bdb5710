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
/**
 * Events are all records from `from` to `seq`, the end of the log; chains are the hashes over the
 * log at `from` and at each record after it.
 * @typedef {{
 *   epoch: string, seq: string, chain: string, from?: string, chains?: string[], events?: Event[],
 * }} Message
 */

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
  const at = new URLSearchParams({ epoch: meta.epoch, after: meta.cursor, chain: meta.chain });
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
 * Whether a message follows on what a phone has: its cursor is among the records of the message,
 * in the same log. A log that went back in time has other chains.
 * @param {Message} message @param {string} epoch @param {string} cursor @param {string} chain
 */
export function follows(message, epoch, cursor, chain) {
  if (message.epoch !== epoch || message.from === undefined) return false;
  if (further(message.from, cursor) || further(cursor, message.seq)) return false;
  return (
    cursor === '0' || message.chains?.[Number(BigInt(cursor) - BigInt(message.from))] === chain
  );
}

/**
 * Take what is new from a message, where that is little and follows on what this phone has. All
 * else is fetched.
 * @param {Message | null} message
 */
async function take(message) {
  if (!message) return fetchNow();
  const { epoch, cursor, chain } = meta;
  const end = message.seq === cursor && message.chain === chain;
  if (message.epoch === epoch && (end || further(cursor, message.seq))) return; // known already
  if (!follows(message, epoch, cursor, chain)) return fetchNow();
  /** @type {Event[]} */ const news = [];
  let held = false;
  await save(['events', 'meta'], async (tx) => {
    const kept = tx.objectStore('meta');
    held = follows(
      message,
      await kept.get('epoch'),
      (await kept.get('cursor')) ?? '0',
      (await kept.get('chain')) ?? '',
    );
    if (!held) return; // the cursor moved meanwhile
    await adopt(tx, message.events ?? [], news);
    kept.put(message.seq, 'cursor');
    kept.put(message.chain, 'chain');
  });
  if (!held) return fetchNow();
  meta.cursor = message.seq;
  meta.chain = message.chain;
  net.value = 'on';
  heard.value = now();
  if (!news.length) return;
  eventsCame.value++;
  broadcast({ events: news, net: 'on' });
  apply(news);
}
