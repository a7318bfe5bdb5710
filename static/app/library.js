// @ts-check
/**
 * The cards, menus and kitchens on this phone. The engine reads them; this module hands them over
 * and keeps its list for the next cold start.
 * @module
 */
import { signal, effect } from './html.js';
import { db, newID, save, texts } from './db.js';
import { ask, engine, read } from './ask.js';
import { discard } from './damage.js';
import { nameRevision } from './revisions.js';
import { filesCame } from './server.js';
import { tell } from './tabs.js';
import { countWaiting } from './events.js';
import { leftOutProblems, mayRead } from './suspects.js';

/** @typedef {import('./engine.d.ts').LibraryView} LibraryView */

/** The list; null until known. */
export const library = signal(/** @type {LibraryView | null} */ (null));

/** Names of the files of which two versions wait for somebody to choose. */
export const inTwo = signal(/** @type {Set<string>} */ (new Set()));

let loading = Promise.resolve();

/** Show the last list at once, then keep up with the files. */
export async function startLibrary() {
  const json = await (await db()).get('views', 'library');
  if (json && !library.peek()) library.value = JSON.parse(json);
  effect(() => {
    filesCame.value;
    if (engine.value === 'ready') loading = loading.then(load).catch(() => {});
  });
}

async function load() {
  const names = await (await db()).getAll('names');
  inTwo.value = new Set(names.filter((n) => n.beside?.length).map((n) => n.name));
  const newest = await texts(names.map((n) => n.revision));
  const all = names.flatMap(({ name }, i) => {
    const file = newest[i];
    return file ? [{ name, text: file.text, revision: file.revision }] : [];
  });
  const files = all.filter(mayRead);
  const revisions = Object.fromEntries(files.map((f) => [f.name, f.revision]));
  const json = await ask('load', { files, revisions }, files);
  discard(read(json).damaged).catch(() => {});
  library.value = withLeftOut(
    read(json),
    all.filter((f) => !mayRead(f)).map((f) => f.name),
  );
  save(['views'], (tx) => {
    tx.objectStore('views').put(json, 'library');
  }).catch(() => {});
}

/**
 * The list with the files that the engine did not get, so that they can be found and edited.
 * @param {LibraryView} view
 * @param {string[]} names
 * @returns {LibraryView}
 */
function withLeftOut(view, names) {
  const files = names.map((name) => ({
    name,
    id: name,
    kind: 'card',
    title: name,
    makes: '',
    covers: 0,
    serve: '',
    kitchen: '',
    plate: false,
    errors: 1,
    warnings: 0,
    needs: [],
    guests: [],
  }));
  return {
    ...view,
    files: [...view.files, ...files],
    problems: [...leftOutProblems(names), ...view.problems],
  };
}

/** When the library in the engine is the one on disk. */
export const loaded = () => loading;

/**
 * The newest text of a file.
 * @param {string} name
 * @returns {Promise<{ revision: string, text: string } | null>}
 */
export async function newest(name) {
  const d = await db();
  const entry = await d.get('names', name);
  const file = entry && (await d.get('files', entry.revision));
  return file ? { revision: entry.revision, text: file.text } : null;
}

/**
 * All revisions of a file this phone has, newest first.
 * @param {string} name
 * @returns {Promise<import('./db.js').Revision[]>}
 */
export async function revisions(name) {
  const all = await (await db()).getAllFromIndex('files', 'name', name);
  return all.sort((a, b) => b.at - a.at);
}

/**
 * The newest revision of each of these files: what a new dinner pins.
 * @param {string[]} names
 * @returns {Promise<Record<string, string>>}
 */
export async function pins(names) {
  const d = await db();
  /** @type {Record<string, string>} */
  const out = {};
  for (const name of names) {
    const entry = await d.get('names', name);
    if (entry) out[name] = entry.revision;
  }
  return out;
}

/**
 * Save a file: into the outbox first, durably; its revision is named when the engine has started.
 * @param {string} name
 * @param {string} base revision it was edited from, "" for a new file
 * @param {string} text
 * @param {string[]} [settles] revisions beside the newest that this text was chosen over
 * @returns {Promise<string>} its revision
 */
export async function saveFile(name, base, text, settles = []) {
  const w = {
    type: /** @type {const} */ ('file'),
    id: newID(),
    name,
    base,
    text,
    ...(settles.length ? { settles } : {}),
  };
  await save(['outbox'], (tx) => {
    tx.objectStore('outbox').put(w);
  });
  await countWaiting();
  const revision = await nameRevision(w);
  tell({ outbox: true });
  return revision;
}
