// @ts-check
/**
 * Parking: what the server refuses is kept on the phone with its reason, in sight of the cook, and
 * can be sent again.
 * @module
 */
import { now } from './clock.js';
import { db, newID, save } from './db.js';
import { countWaiting } from './events.js';
import { reopen } from './follow.js';
import { parked } from './server.js';
import { tell } from './tabs.js';
import { tally } from './tally.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./offers.js').FileOffer} FileOffer */

/** Count what is parked. */
export const countParked = tally('parked', parked);

/**
 * Park records that the server can never take, and show the open dinner without them.
 * @param {(Event | FileOffer)[]} all
 * @param {string} why
 */
export async function park(all, why) {
  await save(['events', 'outbox', 'parked'], async (tx) => {
    for (const what of all) await putAside(tx, what.id, why, what);
  });
  await countParked();
  await countWaiting();
  if (all.some((what) => 'kind' in what)) reopen();
}

/**
 * Move a refused record from the outbox to where the cook sees it.
 * @param {import('./db.js').Transaction} tx
 * @param {string} id
 * @param {string} why
 * @param {Event | FileOffer | undefined} what
 */
export async function putAside(tx, id, why, what) {
  tx.objectStore('parked').put({ id, why, what, at: now() });
  await drop(tx, id);
  // what no other phone has must not change this phone's amounts either
  if (what && 'kind' in what) tx.objectStore('events').delete(id);
}

/**
 * Take a record out of the outbox.
 * @param {import('./db.js').Transaction} tx
 * @param {string} id
 */
export async function drop(tx, id) {
  const outbox = tx.objectStore('outbox');
  for (const n of await outbox.index('id').getAllKeys(id)) outbox.delete(n);
}

/** Send a parked record again. @param {string} id */
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
  await countParked();
  await countWaiting();
  reopen();
  tell({ outbox: true });
}
