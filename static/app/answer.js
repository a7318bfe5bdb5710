// @ts-check
/**
 * An answer of the server: what it has on disk leaves the outbox, what it refuses is parked, what
 * it sends is kept, all in
 * one transaction with the cursor.
 * @module
 */
import { countDamage, regain } from './damage.js';
import { meta, save } from './db.js';
import { countWaiting, forget, observe } from './events.js';
import { apply, reopen } from './follow.js';
import { offerAgain } from './offeragain.js';
import { countParked, drop, putAside } from './parking.js';
import { eventsCame, filesCame, helper } from './server.js';
import { later } from './stamp.js';
import { broadcast } from './tabs.js';
import { noteWaiting } from './waiting.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./offers.js').FileOffer} FileOffer */
/**
 * @typedef {object} FileRecord
 * @property {string} name
 * @property {string} revision
 * @property {string} base
 * @property {string} text
 * @property {string} device
 * @property {number} at
 * @property {string} [beside] see db.js
 * @property {string} [awaits]
 * @property {string[]} [settles]
 */
/** @typedef {{ epoch: string, seq: string, chain: string }} Place */
/**
 * @typedef {object} Reply
 * @property {string} epoch
 * @property {boolean} reset the phone's cursor is of another data file
 * @property {string} next
 * @property {string} chain the hash over the log up to next
 * @property {boolean} more there is more to fetch
 * @property {Place} [end] the end of the log, where there is more to fetch
 * @property {number} now the server's clock, Unix milliseconds
 * @property {string} role
 * @property {string} [device] the name that the server knows this phone by
 * @property {string[]} [kinds] the kinds of events that this device may send; all when missing
 * @property {string[]} acked ids of the records that are on the server's disk
 * @property {{ id: string, why: string }[]} refused
 * @property {string} [trouble] why the server did not do all
 * @property {{ seq: string, why: string }[]} [damaged] records that the server can't read
 * @property {Event[]} events
 * @property {FileRecord[]} files
 * @property {{ revision: string, text: string }[]} [texts] those that this phone had lost
 */

/**
 * Put an answer on disk in one transaction, then on the screen.
 * @param {Reply} reply
 * @param {Event[]} sent
 * @param {FileOffer[]} offered
 */
export async function take(reply, sent, offered) {
  /** @type {Event[]} */ const news = [];
  let lost = false,
    { next, chain } = reply;
  await save(['events', 'outbox', 'files', 'names', 'parked', 'meta'], async (tx) => {
    const outbox = tx.objectStore('outbox'),
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
        ...(f.beside ? { beside: f.beside } : {}),
        ...(f.awaits ? { awaits: f.awaits } : {}),
        ...(f.settles ? { settles: f.settles } : {}),
      });
      // A version beside the newest does not replace it. An edit that was not sent yet stays shown.
      if (!f.beside && !unsent.has(f.name)) names.put({ name: f.name, revision: f.revision });
    }
    for (const name of new Set(reply.files.map((f) => f.name))) await noteWaiting(tx, name);
    // A helper's phone keeps what only a cook may send. When it becomes a cook's, it offers that.
    if (reply.reset || (meta.role === 'helper' && reply.role !== 'helper'))
      await offerAgain(tx, reply);
    await countDamage(tx, reply);
    await regain(tx, reply);
    const kept = tx.objectStore('meta');
    // The stream may have gone further while this answer was on its way.
    const was = await kept.get('cursor');
    if (
      !reply.reset &&
      (await kept.get('epoch')) === reply.epoch &&
      further(was ?? '0', reply.next)
    ) {
      next = was;
      chain = (await kept.get('chain')) ?? '';
    }
    kept.put(reply.epoch, 'epoch');
    kept.put(next, 'cursor');
    kept.put(chain, 'chain');
    // What was acknowledged is beyond the cursor while there is more to fetch. A server that has
    // lost it since must find out.
    if (reply.acked.length && reply.end) kept.put(reply.end, 'sure');
    else if (reply.reset || !reply.more) kept.delete('sure');
    kept.put(reply.role, 'role');
    // This phone signs as the server knows it, so that its own events stay its own.
    if (reply.device) kept.put(reply.device, 'device');
  });
  meta.epoch = reply.epoch;
  meta.cursor = next;
  meta.chain = chain;
  meta.role = reply.role;
  if (reply.device) meta.device = reply.device;
  helper.value = reply.role === 'helper';
  if (reply.refused.length) await countParked();
  if (reply.acked.length || reply.refused.length || reply.reset) {
    await countWaiting();
  }
  const came = reply.files.length > 0 || !!reply.texts?.length;
  const rest = {
    ...(came ? { files: true } : {}),
    ...(lost ? { restamped: true } : {}),
  };
  if (came) filesCame.value++;
  if (news.length) eventsCame.value++;
  broadcast({ ...(news.length ? { events: news } : {}), ...rest, net: 'on' });
  // The open dinner may have waited for a file that came now.
  if (lost || came) reopen();
  else if (news.length) apply(news);
}

/**
 * Put the server's events in the place of this phone's own copies. A stamp that the server changed
 * was too far ahead: from then on this phone stamps after the server's events, not after its own
 * wrong stamps.
 * @param {import('./db.js').Transaction} tx on events and meta
 * @param {Event[]} came
 * @param {Event[]} news takes what is new
 */
export async function adopt(tx, came, news) {
  const events = tx.objectStore('events');
  let restamped = false;
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
    restamped ||= !!old && later(old.stamp, ev.stamp);
  }
  if (!news.length) return;
  if (restamped) meta.last = { wall: 0, count: 0 };
  for (const ev of news) observe(ev.stamp);
  forget(news);
  tx.objectStore('meta').put(meta.last, 'last');
}

/**
 * Whether cursor a is beyond b. They are texts: JavaScript's numbers end at 2^53.
 * @param {string} a
 * @param {string} b
 */
export const further = (a, b) => BigInt(a) > BigInt(b);

/**
 * Correct this phone's clock by the server's. A small difference comes from the network.
 * @param {number} offset
 */
export function learn(offset) {
  if (!Number.isFinite(offset) || Math.abs(offset - meta.offset) < 2000) return;
  meta.offset = Math.abs(offset) < 2000 ? 0 : Math.round(offset);
  save(['meta'], (tx) => {
    tx.objectStore('meta').put(meta.offset, 'offset');
  }).catch(() => {});
}
