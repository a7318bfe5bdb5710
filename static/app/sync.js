// @ts-check
/**
 * Push and pull. One request does both, safe to repeat: the server names what it has on disk, and only that leaves the
 * outbox; what it refuses is parked with its reason. Failures are retried for ever, ever more slowly up to a minute, and
 * at once when there is a sign of a network. A live stream says when there is something to fetch.
 * @module
 */
import { signal, effect } from './html.js';
import { db, meta, save, newID } from './db.js';
import { engine, call } from './ask.js';
import { apply, reopen, sittingID } from './follow.js';
import { countWaiting, stampAll, waiting } from './events.js';
import { broadcast, leading, onNews, onOutbox } from './tabs.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./db.js').Waiting} Waiting */
/** @typedef {{ id: string, name: string, base: string, text: string }} FileOffer */
/** @typedef {{ name: string, revision: string, base: string, text: string, device: string, at: number, clash: boolean }} FileRecord */
/**
 * @typedef {{ epoch: string, reset: boolean, next: string, more: boolean, now: number, acked: string[],
 *   refused: { id: string, why: string }[], events: Event[], files: FileRecord[] }} Reply
 */

/** "unknown" at first, then "on" or "off". */
export const net = signal('unknown');
/** When the server last answered, Unix milliseconds; 0 never. */
export const heard = signal(0);
/** What went wrong last, in words; "" when all is well. */
export const syncTrouble = signal('');
/** How many records the server would not take. */
export const parked = signal(0);
/** Bumped when files came, so that the library is read again. */
export const filesCame = signal(0);
/** Bumped when any sitting got events, so that lists look again. */
export const eventsCame = signal(0);

const PAGE = 400; // the server takes 500 records in one request
const BYTES = 600_000; // and about 1 MiB

let busy = false, wanted = false, fails = 0;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

/** Talk to the server as soon as may be. */
export function nudge() {
  wanted = true;
  if (!leading.peek() || busy) return;
  clearTimeout(timer);
  run();
}

async function run() {
  busy = true;
  try {
    do {
      wanted = false;
      while (await once());
    } while (wanted);
    fails = 0;
    syncTrouble.value = '';
    timer = setTimeout(nudge, 60_000); // the stream may have died without a word
  } catch (err) {
    fails++;
    net.value = 'off';
    broadcast({ net: 'off' });
    syncTrouble.value = err instanceof Refused ? err.message : '';
    const wait = Math.min(60_000, 500 * 2 ** Math.min(fails, 7)) * (0.7 + Math.random() * 0.6);
    timer = setTimeout(nudge, wait);
  } finally {
    busy = false;
  }
}

/** The server answered, but not with what was asked. */
class Refused extends Error {}

/** One request. @returns {Promise<boolean>} whether there is more to send or fetch */
async function once() {
  const d = await db();
  const { events, files, left } = await page();
  const cursor = (await d.get('meta', 'cursor')) ?? '0';
  const epoch = (await d.get('meta', 'epoch')) ?? '';
  const sent = Date.now();
  const res = await fetch('/api/sync', {
    method: 'POST', headers: { 'Content-Type': 'application/json' }, cache: 'no-store',
    body: JSON.stringify({ device: meta.device, epoch, after: cursor, events, files }),
    signal: AbortSignal.timeout?.(30_000),
  });
  if (!res.ok) {
    let why = 'the server answered ' + res.status;
    try { why = (await res.json()).error || why; } catch { /* not JSON: the number must do */ }
    throw new Refused(why);
  }
  const reply = /** @type {Reply} */ (await res.json());
  await take(reply, events, files);
  net.value = 'on';
  heard.value = Date.now();
  // Half the way there and back is the best guess of when the server read its clock.
  learn(reply.now - (sent + Date.now()) / 2);
  return reply.more || left || reply.reset;
}

/** What to send now: stamped events in the order made, and files, one of a name at a time so that each builds on the last. */
async function page() {
  const d = await db();
  const tx = d.transaction(['outbox', 'events']);
  /** @type {Waiting[]} */
  const out = await tx.objectStore('outbox').getAll(null, PAGE * 2);
  /** @type {Event[]} */ const events = [];
  /** @type {FileOffer[]} */ const files = [];
  let bytes = 0, left = false;
  for (const w of out) {
    if (events.length + files.length >= PAGE || bytes > BYTES) { left = true; break; }
    if (w.type === 'file') {
      if (files.some((f) => f.name === w.name)) { left = true; continue; }
      const f = { id: w.id, name: w.name ?? '', base: w.base ?? '', text: w.text ?? '' };
      files.push(f);
      bytes += f.text.length + 200;
      continue;
    }
    const ev = await tx.objectStore('events').get(w.id);
    if (!ev || ev.stamp.wall === 0) continue; // the engine stamps it first
    events.push(ev);
    bytes += 300 + (ev.text?.length ?? 0);
  }
  return { events, files, left };
}

/** Put an answer on disk in one transaction, then on the screen. @param {Reply} reply @param {Event[]} sent @param {FileOffer[]} offered */
async function take(reply, sent, offered) {
  /** @type {Event[]} */ const news = [];
  let lost = false;
  await save(['events', 'outbox', 'files', 'names', 'parked', 'meta'], async (tx) => {
    const events = tx.objectStore('events'), outbox = tx.objectStore('outbox'), names = tx.objectStore('names');
    const drop = async (/** @type {string} */ id) => {
      for (const n of await outbox.index('id').getAllKeys(id)) outbox.delete(n);
    };
    for (const id of reply.acked) await drop(id);
    for (const { id, why } of reply.refused) {
      const what = sent.find((ev) => ev.id === id) ?? offered.find((f) => f.id === id);
      tx.objectStore('parked').put({ id, why, what, at: Date.now() });
      await drop(id);
      if (what && 'kind' in what) { // what nobody else has must not change this phone's sums either
        events.delete(id);
        lost = true;
      }
    }
    for (const ev of reply.events) {
      const old = await events.get(ev.id);
      if (old && old.stamp.wall === ev.stamp.wall && old.stamp.count === ev.stamp.count) continue;
      events.put(ev);
      news.push(ev);
      if (ev.stamp.wall > meta.last.wall || (ev.stamp.wall === meta.last.wall && ev.stamp.count > meta.last.count)) meta.last = ev.stamp;
    }
    if (news.length) {
      const kept = await tx.objectStore('meta').get('last');
      if (!kept || kept.wall < meta.last.wall || (kept.wall === meta.last.wall && kept.count < meta.last.count)) tx.objectStore('meta').put(meta.last, 'last');
    }
    const unsent = new Set((await outbox.getAll()).filter((w) => w.type === 'file').map((w) => w.name));
    for (const f of reply.files) {
      tx.objectStore('files').put({ revision: f.revision, name: f.name, base: f.base, text: f.text, at: f.at });
      if (!unsent.has(f.name)) names.put({ name: f.name, revision: f.revision, clash: f.clash }); // an edit not sent yet stays in sight
    }
    if (reply.reset) await offerAgain(tx, reply);
    tx.objectStore('meta').put(reply.epoch, 'epoch');
    tx.objectStore('meta').put(reply.next, 'cursor');
  });
  meta.epoch = reply.epoch;
  meta.cursor = reply.next;
  if (reply.refused.length) parked.value += reply.refused.length;
  if (reply.acked.length || reply.refused.length || reply.reset) {
    await countWaiting();
  }
  const rest = { ...(reply.files.length ? { files: true } : {}), ...(lost ? { restamped: true } : {}) };
  if (reply.files.length) filesCame.value++;
  if (news.length) eventsCame.value++;
  broadcast({ ...(news.length ? { events: news } : {}), ...rest, net: 'on' });
  if (lost || (reply.files.length && (await lacking()))) reopen();
  else if (news.length) apply(news);
}

/** Whether the open sitting may have waited for a file that came now. */
async function lacking() { return sittingID.peek() !== ''; }

/**
 * A restored or new data file: offer it everything this phone knows. Ids make what it has already harmless; a file's
 * offer is named by its revision, so that two phones offering the same one are the same offer.
 * @param {import('./db.js').Transaction} tx @param {Reply} reply
 */
async function offerAgain(tx, reply) {
  const outbox = tx.objectStore('outbox');
  const there = new Set([...(await outbox.getAll()).map((w) => w.id), ...reply.acked, ...reply.events.map((ev) => ev.id)]);
  const revisions = new Set(reply.files.map((f) => f.revision));
  for (const f of (await tx.objectStore('files').getAll()).sort((a, b) => a.at - b.at)) {
    const id = 'file-' + f.revision;
    if (!revisions.has(f.revision) && !there.has(id)) outbox.put({ type: 'file', id, name: f.name, base: f.base, text: f.text, revision: f.revision });
  }
  for (const ev of (await tx.objectStore('events').getAll()).sort((a, b) => a.stamp.wall - b.stamp.wall || a.stamp.count - b.stamp.count)) {
    if (!there.has(ev.id)) outbox.put({ type: 'event', id: ev.id });
  }
}

/** The server's clock against ours. Small differences are the network's and not the clock's. @param {number} offset */
function learn(offset) {
  if (!Number.isFinite(offset) || Math.abs(offset - meta.offset) < 2000) return;
  meta.offset = Math.abs(offset) < 2000 ? 0 : Math.round(offset);
  save(['meta'], (tx) => { tx.objectStore('meta').put(meta.offset, 'offset'); }).catch(() => {});
}

/** @type {EventSource | null} */
let stream = null;
let streamFails = 0;

function listen() {
  stream?.close();
  stream = new EventSource('/api/stream');
  stream.addEventListener('changed', (event) => {
    streamFails = 0;
    let seq = '';
    try { seq = JSON.parse(event.data).seq; } catch { /* fetch to see */ }
    if (seq === '' || seq !== meta.cursor) nudge();
  });
  stream.onopen = () => { streamFails = 0; nudge(); };
  stream.onerror = () => {
    if (stream?.readyState !== EventSource.CLOSED) return; // it tries again by itself
    stream = null;
    const wait = Math.min(60_000, 1000 * 2 ** Math.min(streamFails++, 6));
    setTimeout(() => { if (leading.peek() && !stream) listen(); }, wait);
  };
}

/** Try again what the server would not take. @param {string} id */
export async function unpark(id) {
  await save(['parked', 'outbox', 'events'], async (tx) => {
    const p = await tx.objectStore('parked').get(id);
    if (!p) return;
    if (p.what?.kind) {
      tx.objectStore('events').put(p.what);
      tx.objectStore('outbox').put({ type: 'event', id });
    } else if (p.what) {
      tx.objectStore('outbox').put({ type: 'file', ...p.what, id: newID() });
    }
    tx.objectStore('parked').delete(id);
  });
  parked.value = await (await db()).count('parked');
  await countWaiting();
  await reopen();
  nudge();
}

/** Begin, after the first paint. */
export async function startSync() {
  parked.value = await (await db()).count('parked');
  await countWaiting();
  onOutbox(nudge);
  onNews((news) => {
    if (news.net) net.value = news.net;
    if (news.restamped) reopen();
    else if (news.events?.length) apply(news.events);
    if (news.files) filesCame.value++;
    if (news.events) eventsCame.value++;
    countWaiting();
  });
  addEventListener('online', nudge);
  addEventListener('focus', nudge);
  document.addEventListener('visibilitychange', () => { if (!document.hidden) nudge(); });
  effect(() => {
    if (leading.value) {
      listen();
      nudge();
    } else {
      stream?.close();
      stream = null;
    }
  });
  effect(() => { if (engine.value === 'ready') settle(); });
}

/** What an earlier visit left half done: events without a stamp, files without a name for their revision. */
async function settle() {
  await stampAll();
  const d = await db();
  for (const w of /** @type {Waiting[]} */ (await d.getAll('outbox'))) {
    if (w.type === 'file' && !w.revision) await nameRevision(w);
  }
  if (waiting.peek()) nudge();
}

/**
 * Name the revision of an edit that is already safe in the outbox, and make it the newest of its name.
 * @param {Waiting} w
 */
export async function nameRevision(w) {
  const { revision } = await call('revision', { text: w.text ?? '' });
  await save(['files', 'names', 'outbox'], async (tx) => {
    tx.objectStore('files').put({ revision, name: w.name, base: w.base, text: w.text, at: Date.now() });
    tx.objectStore('names').put({ name: w.name, revision });
    for (const n of await tx.objectStore('outbox').index('id').getAllKeys(w.id)) tx.objectStore('outbox').put({ ...w, n, revision });
  });
  filesCame.value++;
  broadcast({ files: true });
  return revision;
}
