// @ts-check
/**
 * Offering again: a server that has lost its data file, or has an older one, gets from every phone
 * what that phone knows.
 * @module
 */
import { meta, newID, save } from './db.js';
import { reopen } from './follow.js';
import { inOrder } from './offers.js';
import { countParked } from './parking.js';
import { eventsCame, filesCame } from './server.js';
import { tell } from './tabs.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./answer.js').Reply} Reply */

/**
 * Offer a restored or new data file everything this phone knows. Ids make what it has already
 * harmless; a file's offer is named by its revision, so that two phones offering the same one are
 * the same offer.
 * @param {import('./db.js').Transaction} tx
 * @param {Reply} reply
 */
export async function offerAgain(tx, reply) {
  const outbox = tx.objectStore('outbox');
  const there = new Set([...(await outbox.getAll()).map((w) => w.id), ...reply.acked]);
  const came = new Set(reply.events.map((ev) => ev.id));
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
          ...(f.beside || f.awaits ? { beside: f.beside || f.awaits } : {}),
          ...(f.settles ? { settles: f.settles } : {}),
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
    if (!there.has(ev.id) && !came.has(ev.id) && may(ev)) outbox.put({ type: 'event', id: ev.id });
  }
}

/** Offer everything again at the next chance, as after a backup was read in. */
export async function offerAll() {
  await save(['meta'], (tx) => {
    tx.objectStore('meta').put('', 'epoch');
    // a cursor of no epoch: the server answers with a reset
    tx.objectStore('meta').put('1', 'cursor');
    tx.objectStore('meta').put('', 'chain');
  });
  meta.epoch = '';
  meta.cursor = '1';
  meta.chain = '';
  filesCame.value++;
  eventsCame.value++;
  await countParked();
  reopen();
  tell({ outbox: true });
}
