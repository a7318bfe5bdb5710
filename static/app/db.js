// @ts-check
/**
 * What this phone keeps. Everything is here before it is anywhere else: there may be neither
 * network nor engine.
 *
 *     files   revision -> its text; nothing is ever taken out
 *     names   file name -> the newest revision this phone knows
 *     events  every event of every dinner, by id
 *     outbox  what the server has not confirmed yet, in the order made
 *     parked  what the server refused, with its reason
 *     meta    device, cursor, epoch, chain, sure, offset, last (stamp), where, role, views (their
 *             form), damaged (places in the server's log), lost (texts)
 *     views   the last answers of the engine as text, to paint from before it has started, and the
 *             drafts of texts that are being edited
 * @module
 */
import { openDB } from '../vendor/idb.js';
import { VIEW_FORM } from './viewform.js';

/** @typedef {import('../vendor/idb.js').Transaction} Transaction */
/**
 * @typedef {{
 *   n?: number, type: 'event' | 'file', id: string,
 *   name?: string, base?: string, text?: string, revision?: string,
 *   beside?: string, settles?: string[],
 * }} Waiting
 */
/**
 * A revision of a file. Beside is the revision that was the newest when this one came and changed
 * the same lines; awaits is that revision where it has not come to the server yet; settles are such
 * revisions that this one was chosen over.
 * @typedef {{
 *   revision: string, name: string, base: string, text: string, at: number,
 *   beside?: string, awaits?: string, settles?: string[],
 * }} Revision
 */
/**
 * Beside are the revisions that wait beside the newest, see waiting.js.
 * @typedef {{ name: string, revision: string, beside?: string[] }} Name
 */
/** @typedef {{ id: string, why: string, what: any, at: number }} Parked */

const opening = openDB('hobside', 2, {
  async upgrade(d, from, _to, tx) {
    if (from === 1) return nameDinners(tx);
    d.createObjectStore('files', { keyPath: 'revision' }).createIndex('name', 'name');
    d.createObjectStore('names', { keyPath: 'name' });
    d.createObjectStore('events', { keyPath: 'id' }).createIndex('dinner', 'dinner');
    d.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true }).createIndex('id', 'id');
    d.createObjectStore('parked', { keyPath: 'id' });
    d.createObjectStore('meta');
    d.createObjectStore('views');
  },
  // An older page must not keep a newer one waiting; what it has is on disk.
  blocking(_current, _wanted, event) {
    event.target.close();
  },
});

/**
 * Version 1 called the field of an event that names its dinner "sitting".
 * @param {Transaction} tx
 */
async function nameDinners(tx) {
  const events = tx.objectStore('events'),
    parked = tx.objectStore('parked');
  events.deleteIndex('sitting');
  for (const ev of await events.getAll()) events.put(dinnerNamed(ev));
  events.createIndex('dinner', 'dinner');
  for (const p of await parked.getAll())
    if (p.what?.sitting) parked.put({ ...p, what: dinnerNamed(p.what) });
  await dropViews(tx);
}

/**
 * Drop the engine's answers, which can be worked out again, and keep the drafts.
 * @param {Transaction} tx
 */
async function dropViews(tx) {
  const views = tx.objectStore('views');
  for (const key of await views.getAllKeys())
    if (!String(key).startsWith('draft:')) views.delete(key);
}

/** An event with its dinner under today's name. @param {any} ev @returns {any} */
export function dinnerNamed(ev) {
  if (!ev || typeof ev !== 'object' || !('sitting' in ev)) return ev;
  const { sitting, ...rest } = ev;
  return { dinner: sitting, ...rest };
}

/** The open database. */
export const db = () => opening;

/**
 * One durable write. The promise settles when it is on disk and not before. Put only what needs no
 * reading first in fn; a reading fn must be async and is committed when it ends.
 *
 * Without commit() and strict a tap followed at once by a reload was lost about one time in five.
 * @param {string[]} stores
 * @param {(tx: Transaction) => void | Promise<void>} fn
 */
export async function save(stores, fn) {
  const tx = (await opening).transaction(stores, 'readwrite', { durability: 'strict' });
  try {
    const reading = fn(tx);
    if (reading) await reading;
    tx.commit();
  } catch (err) {
    try {
      tx.abort();
    } catch {
      /* already gone */
    }
    tx.done.catch(() => {});
    throw err;
  }
  await tx.done;
}

/**
 * Several texts, by revision, in the order asked. Each asked for by itself is felt at a cold start:
 * where there is not much besides, all are read at once.
 * @param {string[]} revisions @returns {Promise<(Revision | undefined)[]>}
 */
export async function texts(revisions) {
  const { store } = (await opening).transaction('files');
  if ((await store.count()) > 3 * revisions.length + 20)
    return Promise.all(revisions.map((r) => store.get(r)));
  const all = new Map((await store.getAll()).map((f) => [f.revision, f]));
  return revisions.map((r) => all.get(r));
}

/**
 * What meta held when the page opened, so that nobody waits for it.
 * @type {{
 *   device: string, cursor: string, epoch: string, chain: string, offset: number,
 *   last: import('./engine.d.ts').Stamp, where: string, role: string, views: string,
 *   damaged: string[], lost: import('./damage.js').Lost[],
 * }}
 */
export const meta = {
  device: '',
  cursor: '0',
  epoch: '',
  chain: '',
  offset: 0,
  last: { wall: 0, count: 0 },
  where: '',
  role: '',
  views: '',
  damaged: [],
  lost: [],
};

/**
 * Read meta, make this device's name the first time, and drop views that an earlier release kept in
 * another form.
 * @returns {Promise<boolean>} whether it was the first time
 */
export async function readMeta() {
  const d = await opening;
  const tx = d.transaction('meta');
  const keys = await tx.store.getAllKeys();
  const values = await tx.store.getAll();
  keys.forEach((key, i) => {
    /** @type {any} */ (meta)[key] = values[i];
  });
  const fresh = !meta.device;
  if (fresh) {
    meta.device = newID();
    await save(['meta'], (t) => {
      t.objectStore('meta').put(meta.device, 'device');
    });
  }
  if (meta.views !== VIEW_FORM) {
    meta.views = VIEW_FORM;
    await save(['meta', 'views'], async (t) => {
      t.objectStore('meta').put(VIEW_FORM, 'views');
      await dropViews(t);
    });
  }
  return fresh;
}

/**
 * Write one word of meta where losing it costs a little convenience.
 * @param {keyof typeof meta} key
 * @param {any} value
 */
export function note(key, value) {
  /** @type {any} */ (meta)[key] = value;
  return save(['meta'], (tx) => {
    tx.objectStore('meta').put(value, key);
  });
}

const letters = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'; // Crockford's base 32

/**
 * A new name nobody else makes: time first, so that they sort as they were made, then 80 bits of
 * chance.
 */
export function newID() {
  let time = Date.now(),
    word = '';
  for (let i = 0; i < 10; i++, time = Math.floor(time / 32)) word = letters[time % 32] + word;
  for (const b of crypto.getRandomValues(new Uint8Array(16))) word += letters[b % 32];
  return word;
}
