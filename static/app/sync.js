// @ts-check
/**
 * Push and pull. One request does both, safe to repeat: the server names what it has on disk, and
 * only that leaves the outbox; what it refuses is parked with its reason. Failures are retried for
 * ever, ever more slowly up to a minute, and at once when there is a sign of a network. A live
 * stream says when there is something to fetch.
 * @module
 */
import { signal, effect } from './html.js';
import { db, meta, save, newID } from './db.js';
import { engine, call } from './ask.js';
import { apply, reopen, dinnerID } from './follow.js';
import { countWaiting, stampAll, waiting } from './events.js';
import { fill, inOrder, MOST, PAGE } from './offers.js';
import { Retry } from './retry.js';
import { broadcast, leading, onNews, onOutbox } from './tabs.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./db.js').Waiting} Waiting */
/** @typedef {import('./offers.js').FileOffer} FileOffer */
/**
 * @typedef {{
 *   name: string, revision: string, base: string, text: string,
 *   device: string, at: number, clash: boolean,
 * }} FileRecord
 */
/**
 * @typedef {{
 *   epoch: string, reset: boolean, next: string, more: boolean, now: number, role: string,
 *   device?: string, kinds?: string[], acked: string[], refused: { id: string, why: string }[],
 *   events: Event[], files: FileRecord[],
 * }} Reply
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
/** Bumped when any dinner got events, so that lists look again. */
export const eventsCame = signal(0);

/** Whether the server lets this device in: "" yes or not known, else what it says. */
export const barred = signal('');

/**
 * Whether the server takes this phone for a helper's: it ticks, weighs and notes, and changes no
 * dinner.
 */
export const helper = signal(false);

let room = PAGE; // records in one request; fewer after one was too large

let busy = false,
  wanted = false;
const requests = new Retry(nudge);

/** Talk to the server as soon as may be. */
export function nudge() {
  wanted = true;
  if (!leading.peek() || busy) return;
  requests.cancel();
  run();
}

async function run() {
  busy = true;
  try {
    do {
      wanted = false;
      await all();
    } while (wanted);
    requests.succeeded();
    syncTrouble.value = '';
    requests.after(60_000); // the stream may have died without a word
  } catch (err) {
    net.value = 'off';
    broadcast({ net: 'off' });
    syncTrouble.value = err instanceof Refused ? err.message : '';
    requests.failed();
  } finally {
    busy = false;
  }
}

/** The server answered, but not with what was asked. */
class Refused extends Error {}

/**
 * How often in a row the server may ask for more with nothing moved: one reset is such an answer.
 */
const IDLE = 3;

/** Requests one after another until there is nothing more to send or fetch. */
async function all() {
  for (let idle = 0; idle < IDLE;) {
    const { more, moved } = await once();
    if (!more) return;
    idle = moved ? 0 : idle + 1;
  }
  throw new Refused('the server asks for more and takes nothing: tried again later');
}

/**
 * One request.
 * @returns {Promise<{ more: boolean, moved: boolean }>} whether there is more to send or fetch, and
 *   whether this one got anything done
 */
async function once() {
  const d = await db();
  const { events, files, heavy, left } = await page();
  if (heavy.length)
    await park(
      heavy,
      'it is larger than the ' +
        Math.floor(MOST / 1000) +
        ' kB that the server takes: make two of it',
    );
  const cursor = (await d.get('meta', 'cursor')) ?? '0';
  const epoch = (await d.get('meta', 'epoch')) ?? '';
  const sent = Date.now();
  const res = await fetch('/api/sync', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    cache: 'no-store',
    body: JSON.stringify({ device: meta.device, epoch, after: cursor, events, files }),
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
      // Fewer at a time; and one alone that is too large would be in the way of all others for
      // ever.
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
  heard.value = Date.now();
  // Half the way there and back is the best guess of when the server read its clock.
  learn(reply.now - (sent + Date.now()) / 2);
  return {
    more: reply.more || left || reply.reset || heavy.length > 0,
    moved:
      heavy.length + reply.acked.length + reply.refused.length > 0 ||
      (!reply.reset && further(reply.next, cursor)),
  };
}

/** What to send now. */
async function page() {
  const d = await db();
  const tx = d.transaction(['outbox', 'events']);
  /** @type {Waiting[]} */
  const out = await tx.objectStore('outbox').getAll(null, PAGE * 2);
  return fill(out, (id) => tx.objectStore('events').get(id), room);
}

/**
 * Put aside what the server can never take, where the cook sees it.
 * @param {(Event | FileOffer)[]} all
 * @param {string} why
 */
async function park(all, why) {
  await save(['events', 'outbox', 'parked'], async (tx) => {
    for (const what of all) await putAside(tx, what.id, why, what);
  });
  parked.value += all.length;
  await countWaiting();
  if (all.some((what) => 'kind' in what)) reopen();
}

/**
 * @param {import('./db.js').Transaction} tx
 * @param {string} id
 * @param {string} why
 * @param {Event | FileOffer | undefined} what
 */
async function putAside(tx, id, why, what) {
  tx.objectStore('parked').put({ id, why, what, at: Date.now() });
  await drop(tx, id);
  // what nobody else has must not change this phone's sums either
  if (what && 'kind' in what) tx.objectStore('events').delete(id);
}

/** @param {import('./db.js').Transaction} tx @param {string} id */
async function drop(tx, id) {
  const outbox = tx.objectStore('outbox');
  for (const n of await outbox.index('id').getAllKeys(id)) outbox.delete(n);
}

/**
 * Put an answer on disk in one transaction, then on the screen.
 * @param {Reply} reply
 * @param {Event[]} sent
 * @param {FileOffer[]} offered
 */
async function take(reply, sent, offered) {
  /** @type {Event[]} */ const news = [];
  let lost = false,
    next = reply.next;
  await save(['events', 'outbox', 'files', 'names', 'parked', 'meta'], async (tx) => {
    const events = tx.objectStore('events'),
      outbox = tx.objectStore('outbox'),
      names = tx.objectStore('names');
    for (const id of reply.acked) await drop(tx, id);
    for (const { id, why } of reply.refused) {
      const what = sent.find((ev) => ev.id === id) ?? offered.find((f) => f.id === id);
      await putAside(tx, id, why, what);
      lost ||= !!what && 'kind' in what;
    }
    await adopt(tx, reply.events, news);
    const unsent = new Set(
      (await outbox.getAll()).filter((w) => w.type === 'file').map((w) => w.name),
    );
    for (const f of reply.files) {
      tx.objectStore('files').put({
        revision: f.revision,
        name: f.name,
        base: f.base,
        text: f.text,
        at: f.at,
      });
      // an edit not sent yet stays in sight
      if (!unsent.has(f.name)) names.put({ name: f.name, revision: f.revision, clash: f.clash });
    }
    // A helper keeps to itself what only a cook may send; made a cook, it has that to offer.
    if (reply.reset || (meta.role === 'helper' && reply.role !== 'helper'))
      await offerAgain(tx, reply);
    const kept = tx.objectStore('meta');
    // The stream may have gone further while this answer was on its way.
    const was = await kept.get('cursor');
    next =
      !reply.reset && (await kept.get('epoch')) === reply.epoch && further(was ?? '0', reply.next)
        ? was
        : reply.next;
    kept.put(reply.epoch, 'epoch');
    kept.put(next, 'cursor');
    kept.put(reply.role, 'role');
    // This phone signs as the server knows it, so that its own events stay its own.
    if (reply.device) kept.put(reply.device, 'device');
  });
  meta.epoch = reply.epoch;
  meta.cursor = next;
  meta.role = reply.role;
  if (reply.device) meta.device = reply.device;
  helper.value = reply.role === 'helper';
  if (reply.refused.length) parked.value += reply.refused.length;
  if (reply.acked.length || reply.refused.length || reply.reset) {
    await countWaiting();
  }
  const rest = {
    ...(reply.files.length ? { files: true } : {}),
    ...(lost ? { restamped: true } : {}),
  };
  if (reply.files.length) filesCame.value++;
  if (news.length) eventsCame.value++;
  broadcast({ ...(news.length ? { events: news } : {}), ...rest, net: 'on' });
  if (lost || (reply.files.length && (await lacking()))) reopen();
  else if (news.length) apply(news);
}

/** Whether the open dinner may have waited for a file that came now. */
async function lacking() {
  return dinnerID.peek() !== '';
}

/**
 * Put events from elsewhere in the place of this phone's own copies.
 * @param {import('./db.js').Transaction} tx on events and meta
 * @param {Event[]} came
 * @param {Event[]} news takes what is new
 */
async function adopt(tx, came, news) {
  const events = tx.objectStore('events');
  for (const ev of came) {
    const old = await events.get(ev.id);
    if (
      old &&
      old.stamp.wall === ev.stamp.wall &&
      old.stamp.count === ev.stamp.count &&
      old.device === ev.device && // the server signs what this phone sent
      (old.who ?? '') === (ev.who ?? '')
    )
      continue;
    events.put(ev);
    news.push(ev);
    if (later(ev.stamp, meta.last)) meta.last = ev.stamp;
  }
  if (!news.length) return;
  const kept = await tx.objectStore('meta').get('last');
  if (!kept || later(meta.last, kept)) tx.objectStore('meta').put(meta.last, 'last');
}

/** @param {import('./engine.d.ts').Stamp} a @param {import('./engine.d.ts').Stamp} b */
const later = (a, b) => a.wall > b.wall || (a.wall === b.wall && a.count > b.count);

/**
 * Whether cursor a is beyond b. They are words: JavaScript's numbers end at 2^53.
 * @param {string} a
 * @param {string} b
 */
const further = (a, b) => BigInt(a) > BigInt(b);

/**
 * A restored or new data file: offer it everything this phone knows. Ids make what it has already
 * harmless; a file's offer is named by its revision, so that two phones offering the same one are
 * the same offer.
 * @param {import('./db.js').Transaction} tx @param {Reply} reply
 */
async function offerAgain(tx, reply) {
  const outbox = tx.objectStore('outbox');
  const there = new Set([
    ...(await outbox.getAll()).map((w) => w.id),
    ...reply.acked,
    ...reply.events.map((ev) => ev.id),
  ]);
  const revisions = new Set(reply.files.map((f) => f.revision));
  const may = (/** @type {Event} */ ev) => !reply.kinds || reply.kinds.includes(ev.kind);
  if (reply.role !== 'helper') {
    /** @type {import('./db.js').Revision[]} */
    const files = await tx.objectStore('files').getAll();
    for (const f of inOrder(files)) {
      const id = 'file-' + f.revision;
      if (!revisions.has(f.revision) && !there.has(id))
        outbox.put({
          type: 'file',
          id,
          name: f.name,
          base: f.base,
          text: f.text,
          revision: f.revision,
        });
    }
    // Of two files with one text, files holds the one written last.
    const of = new Map(files.map((f) => [f.revision, f]));
    for (const { name, revision } of await tx.objectStore('names').getAll()) {
      const f = of.get(revision);
      if (f && f.name !== name)
        outbox.put({ type: 'file', id: newID(), name, base: '', text: f.text, revision });
    }
  }
  for (const ev of (await tx.objectStore('events').getAll()).sort(
    (a, b) => a.stamp.wall - b.stamp.wall || a.stamp.count - b.stamp.count,
  )) {
    if (!there.has(ev.id) && may(ev)) outbox.put({ type: 'event', id: ev.id });
  }
}

/** Offer everything again at the next chance, as after a backup was read in. */
export async function offerAll() {
  await save(['meta'], (tx) => {
    tx.objectStore('meta').put('', 'epoch');
    // a cursor of no epoch: the server answers with a reset
    tx.objectStore('meta').put('1', 'cursor');
  });
  meta.epoch = '';
  meta.cursor = '1';
  filesCame.value++;
  eventsCame.value++;
  parked.value = await (await db()).count('parked');
  await reopen();
  nudge();
}

/**
 * The server's clock against ours. Small differences are the network's and not the clock's.
 * @param {number} offset
 */
function learn(offset) {
  if (!Number.isFinite(offset) || Math.abs(offset - meta.offset) < 2000) return;
  meta.offset = Math.abs(offset) < 2000 ? 0 : Math.round(offset);
  save(['meta'], (tx) => {
    tx.objectStore('meta').put(meta.offset, 'offset');
  }).catch(() => {});
}

/** @type {EventSource | null} */
let stream = null;
const streams = new Retry(() => {
  if (leading.peek() && !stream) listen();
});

/** @typedef {{ epoch: string, seq: string, from?: string, events?: Event[] }} Word */

function listen() {
  stream?.close();
  const at = new URLSearchParams({ epoch: meta.epoch, after: meta.cursor });
  const own = (stream = new EventSource('/api/stream?' + at));
  stream.addEventListener('changed', (event) => {
    streams.succeeded();
    /** @type {Word | null} */
    let word = null;
    try {
      word = JSON.parse(event.data);
    } catch {
      /* fetch to see */
    }
    // what can't be put on disk now is fetched when it can
    hearing = hearing.then(() => hear(word)).catch(nudge);
  });
  stream.onopen = () => {
    streams.succeeded();
    nudge();
  };
  stream.onerror = () => {
    // is the server there at all? the status must not say so for long
    if (own === stream && net.peek() !== 'off') nudge();
    if (own !== stream || own.readyState !== EventSource.CLOSED) return; // it tries again by itself
    stream = null;
    streams.failed();
  };
}

/** Words are taken one after another. */
let hearing = Promise.resolve();

/**
 * A word of the stream: what is new is in it, where that is little and follows on what this phone
 * has. All else is fetched.
 * @param {Word | null} word
 */
async function hear(word) {
  if (!word) return nudge();
  if (word.epoch === meta.epoch && !further(word.seq, meta.cursor)) return; // known already
  if (word.epoch !== meta.epoch || word.from === undefined || further(word.from, meta.cursor))
    return nudge();
  /** @type {Event[]} */ const news = [];
  let held = false;
  await save(['events', 'meta'], async (tx) => {
    const kept = tx.objectStore('meta');
    held =
      (await kept.get('epoch')) === word.epoch &&
      !further(word.from ?? '0', (await kept.get('cursor')) ?? '0');
    if (!held) return; // the cursor went back meanwhile
    await adopt(tx, word.events ?? [], news);
    if (further(word.seq, await kept.get('cursor'))) kept.put(word.seq, 'cursor');
  });
  if (!held) return nudge();
  if (further(word.seq, meta.cursor)) meta.cursor = word.seq;
  net.value = 'on';
  heard.value = Date.now();
  if (!news.length) return;
  eventsCame.value++;
  broadcast({ events: news, net: 'on' });
  apply(news);
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
  helper.value = meta.role === 'helper';
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
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) nudge();
  });
  effect(() => {
    if (leading.value) {
      listen();
      nudge();
    } else {
      stream?.close();
      stream = null;
    }
  });
  effect(() => {
    if (engine.value === 'ready') settle();
  });
}

/**
 * What an earlier visit left half done: events without a stamp, files without a name for their
 * revision.
 */
async function settle() {
  await stampAll();
  const d = await db();
  for (const w of /** @type {Waiting[]} */ (await d.getAll('outbox'))) {
    if (w.type === 'file' && !w.revision) await nameRevision(w);
  }
  if (waiting.peek()) nudge();
}

/**
 * Name the revision of an edit that is already safe in the outbox, and make it the newest of its
 * name.
 * @param {Waiting} w
 */
export async function nameRevision(w) {
  const { revision } = await call('revision', { text: w.text ?? '' });
  await save(['files', 'names', 'outbox'], async (tx) => {
    tx.objectStore('files').put({
      revision,
      name: w.name,
      base: w.base,
      text: w.text,
      at: Date.now(),
    });
    tx.objectStore('names').put({ name: w.name, revision });
    for (const n of await tx.objectStore('outbox').index('id').getAllKeys(w.id))
      tx.objectStore('outbox').put({ ...w, n, revision });
  });
  filesCame.value++;
  broadcast({ files: true });
  return revision;
}
