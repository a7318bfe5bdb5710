// @ts-check
/**
 * One request to the server. It does both, push and pull, and is safe to repeat.
 * @module
 */
import { further, learn, take } from './answer.js';
import { now } from './clock.js';
import { db, meta } from './db.js';
import { fill, MOST, PAGE } from './offers.js';
import { park } from './parking.js';
import { barred, heard, net } from './server.js';

/** @typedef {import('./answer.js').Reply} Reply */
/** @typedef {import('./db.js').Waiting} Waiting */

/** The server answered, but not with what was asked. */
export class Refused extends Error {}

let room = PAGE; // records in one request; fewer after one was too large

/**
 * Make one request: send what waits, fetch what is new.
 * @returns {Promise<{ more: boolean, moved: boolean }>} whether there is more to send or fetch, and
 *   whether this one got anything done
 */
export async function request() {
  const { events, files, heavy, left } = await nextPage();
  if (heavy.length)
    await park(
      heavy,
      'it is larger than the ' +
        Math.floor(MOST / 1000) +
        ' kB that the server takes: make two of it',
    );
  const at = await place();
  const want = ((await (await db()).get('meta', 'lost')) ?? [])
    .slice(0, WANTED)
    .map((/** @type {import('./damage.js').Lost} */ l) => l.revision);
  const sent = Date.now();
  const res = await fetch('/api/sync', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    cache: 'no-store',
    body: JSON.stringify({
      device: meta.device,
      ...at,
      events,
      files,
      ...(want.length ? { want } : {}),
    }),
    signal: AbortSignal.timeout?.(30_000),
  });
  if (!res.ok) {
    let why = 'the server answered ' + res.status;
    try {
      why = (await res.json()).error || why;
    } catch {
      /* not JSON: the number must do */
    }
    if (res.status === 413 && events.length + files.length > 0) {
      // Send fewer at a time. One that is too large by itself would hold up all others for ever.
      const n = events.length + files.length;
      if (n > 1) room = Math.ceil(n / 2);
      else await park([...events, ...files], why);
      return { more: true, moved: true };
    }
    barred.value = res.status === 401 ? why : '';
    throw new Refused(why);
  }
  const reply = /** @type {Reply} */ (await res.json());
  await take(reply, events, files);
  room = PAGE;
  barred.value = '';
  net.value = 'on';
  heard.value = now();
  // Half the way there and back is the best guess of when the server read its clock.
  learn(reply.now - (sent + Date.now()) / 2);
  if (reply.trouble) throw new Refused(reply.trouble); // in sight, and again after a pause
  return {
    more: reply.more || left || reply.reset || heavy.length > 0,
    moved:
      !!reply.texts?.length ||
      heavy.length + reply.acked.length + reply.refused.length > 0 ||
      (!reply.reset && further(reply.next, at.after)),
  };
}

/**
 * This phone's place in the server's log. The chain is a hash over the log up to the cursor: by it
 * the server notices that its data file went back in time.
 */
async function place() {
  const { store } = (await db()).transaction('meta');
  const [epoch, after, chain, sure] = await Promise.all(
    ['epoch', 'cursor', 'chain', 'sure'].map((key) => store.get(key)),
  );
  return {
    epoch: epoch ?? '',
    after: after ?? '0',
    chain: chain ?? '',
    ...(sure ? { sure } : {}),
  };
}

/** How many lost texts one request asks for. */
const WANTED = 50;

/** What to send with the next request. */
async function nextPage() {
  const d = await db();
  const tx = d.transaction(['outbox', 'events']);
  /** @type {Waiting[]} */
  const out = await tx.objectStore('outbox').getAll(null, PAGE * 2);
  return fill(out, (id) => tx.objectStore('events').get(id), room);
}
