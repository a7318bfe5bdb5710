// @ts-check
/**
 * The revision of an edited file is named by the engine. The edit is safe in the outbox before
 * that.
 * @module
 */
import { call } from './ask.js';
import { now } from './clock.js';
import { db, save } from './db.js';
import { waiting } from './events.js';
import { filesCame } from './server.js';
import { broadcast, tell } from './tabs.js';
import { noteWaiting } from './waiting.js';

/** @typedef {import('./db.js').Waiting} Waiting */

/** Name the revisions of edits that an earlier visit left without one. */
export async function nameRevisions() {
  const d = await db();
  for (const w of /** @type {Waiting[]} */ (await d.getAll('outbox'))) {
    if (w.type === 'file' && !w.revision) await nameRevision(w);
  }
  if (waiting.peek()) tell({ outbox: true });
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
      at: now(),
      ...(w.settles ? { settles: w.settles } : {}),
    });
    tx.objectStore('names').put({ name: w.name, revision });
    await noteWaiting(tx, w.name ?? '');
    for (const n of await tx.objectStore('outbox').index('id').getAllKeys(w.id))
      tx.objectStore('outbox').put({ ...w, n, revision });
  });
  filesCame.value++;
  broadcast({ files: true });
  return revision;
}
