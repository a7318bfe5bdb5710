// @ts-check
/**
 * All that this phone holds as one file that a person can keep, and such a file read in again.
 * Reading in takes nothing away and writes nothing over: what the phone has counts, what it lacks
 * is added, and all of it is offered to the server, which knows by the ids what it has.
 * @module
 */
import { db, dinnerNamed, meta, save } from './db.js';
import { call } from './ask.js';
import { stampEarlier } from './events.js';
import { offerAll } from './offeragain.js';

const stores = ['files', 'names', 'events', 'outbox', 'parked'];
const LARGEST = 200e6;

/** Everything, as the text of a file. */
export async function backupText() {
  const d = await db();
  const tx = d.transaction(stores); // one moment of all of them
  const [files, names, events, outbox, parked] = await Promise.all(
    stores.map((s) => tx.objectStore(s).getAll()),
  );
  return JSON.stringify({
    hobside: 1,
    device: meta.device,
    epoch: meta.epoch,
    at: new Date().toISOString(),
    files,
    names,
    events,
    outbox,
    parked,
  });
}

/** Hand the backup to the browser as a download. */
export async function saveBackup() {
  const a = document.createElement('a');
  a.href = URL.createObjectURL(new Blob([await backupText()], { type: 'application/json' }));
  a.download = 'hobside-' + new Date().toISOString().slice(0, 16).replace(/[:T]/g, '-') + '.json';
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 60_000);
}

/** @param {unknown} v @param {string[]} words @param {string[]} [numbers] */
const has = (v, words, numbers = []) =>
  !!v &&
  typeof v === 'object' &&
  words.every((w) => typeof (/** @type {any} */ (v)[w]) === 'string') &&
  numbers.every((w) => Number.isFinite(/** @type {any} */ (v)[w]));

/**
 * Read a backup in. Throws, with nothing changed, what is wrong with it in words.
 * @param {Blob} file @returns {Promise<{ files: number, events: number }>} how much was new here
 */
export async function readBackup(file) {
  if (file.size > LARGEST) throw new Error('that is larger than any backup of the app');
  /** @type {any} */
  let b;
  try {
    b = JSON.parse(await file.text());
  } catch {
    throw new Error('that is not a backup of the app, or it was cut short');
  }
  if (!b || b.hobside !== 1 || !stores.every((s) => Array.isArray(b[s])))
    throw new Error('that is not a backup of the app, or one of a newer version');
  b.events = b.events.map(dinnerNamed);
  b.parked = b.parked.map((/** @type {any} */ p) => ({ ...p, what: dinnerNamed(p?.what) }));
  const sound =
    b.files.every((/** @type {any} */ f) => has(f, ['revision', 'name', 'base', 'text'], ['at'])) &&
    b.names.every((/** @type {any} */ n) => has(n, ['name', 'revision'])) &&
    b.events.every(
      (/** @type {any} */ e) =>
        has(e, ['id', 'dinner', 'device', 'kind']) && has(e.stamp, [], ['wall', 'count']),
    ) &&
    b.outbox.every((/** @type {any} */ w) => has(w, ['type', 'id'])) &&
    b.parked.every((/** @type {any} */ p) => has(p, ['id', 'why']));
  if (!sound) throw new Error('something in that backup makes no sense: nothing was read in');
  // The engine checks events by the server's rule and names the texts: a file that was changed by
  // hand is found out here.
  // An unsent event of the first release may have no stamp yet; it gets one below.
  const { refused } = await call('validate', {
    events: b.events.map((/** @type {any} */ e) =>
      e.stamp.wall === 0 ? { ...e, stamp: { wall: 1, count: 0 } } : e,
    ),
  });
  if (refused.length)
    throw new Error(
      'an event in that backup is wrong: ' + refused[0].why + ': nothing was read in',
    );
  for (const f of b.files) {
    if ((await call('revision', { text: f.text })).revision !== f.revision)
      throw new Error(
        'the text of ' + f.name + ' in that backup is not what it was: nothing was read in',
      );
  }
  const done = { files: 0, events: 0 };
  await save(stores, async (tx) => {
    const [files, names, events, outbox, parked] = stores.map((s) => tx.objectStore(s));
    for (const f of b.files)
      if (!(await files.get(f.revision))) {
        files.put(f);
        done.files++;
      }
    for (const n of b.names) if (!(await names.get(n.name))) names.put(n);
    for (const e of b.events)
      if (!(await events.get(e.id))) {
        events.put(e);
        done.events++;
      }
    for (const p of b.parked)
      if (!(await parked.get(p.id)) && !(await events.get(p.id))) parked.put(p);
    for (const { n: _, ...w } of b.outbox) {
      // unsent edits have ids of their own
      if ((await outbox.index('id').getAllKeys(w.id)).length === 0) outbox.put(w);
    }
  });
  await stampEarlier(); // the last tap in a backup of the first release may have no stamp
  await offerAll();
  return done;
}
