// @ts-check
/**
 * A recipe of somebody else's becomes a card: pasted, from a file, or shared from another app. The
 * server reads it. With no network the paste is kept on this phone and read later.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { db, newID, save } from './db.js';
import { lazy } from './lazy.js';
import { Top } from './parts.js';
import { heard, net } from './server.js';

/** @typedef {import('./compare.js').Found} Found */
/** @typedef {{ id: string, name: string, data: string }} Paste data is the bytes in base64 */

const typed = signal('');
const said = signal('');
const busy = signal(false);
const found = signal(/** @type {Found[]} */ ([]));
/** What is kept until the server can be reached. */
const kept = signal(/** @type {Paste[]} */ ([]));

const Compare = lazy(() => import('./compare.js').then((m) => m.Compare));

/** The screen. */
export function Bring() {
  useEffect(() => {
    takeShared();
    readKept();
  }, []);
  useEffect(() => {
    if (net.value !== 'off' && heard.value && kept.peek().length && !busy.peek()) read(kept.peek());
  }, [heard.value, net.value, kept.value.length]);
  return html`
    <${Top} at="cards" />
    <main id="bring" data-kept=${kept.value.length}>
      <a class="up" href="#/cards"><span aria-hidden="true">‹</span> Cards</a>
      <h1>Bring a recipe in</h1>
      ${
        found.value.length
          ? html`<${Compare} found=${found} said=${said} typed=${typed} />`
          : html`
              <label for="paste">Paste a recipe: the title, the ingredients and the steps</label>
              <textarea
                id="paste"
                rows="10"
                value=${typed.value}
                onInput=${(/** @type {any} */ e) => {
                  typed.value = e.target.value;
                }}
              ></textarea>
              <div class="row">
                <button
                  type="button"
                  class="main"
                  id="read-paste"
                  disabled=${busy.value || !typed.value.trim()}
                  onClick=${() => take([new File([typed.peek()], '')])}
                >
                  Read it
                </button>
                <input
                  type="file"
                  id="recipe-file"
                  class="unseen"
                  multiple
                  onChange=${(/** @type {any} */ e) => take(e.target.files)}
                />
                <label class="button" for="recipe-file">Choose files</label>
              </div>
            `
      }
      <p role="status" id="bring-said">${said.value}</p>
    </main>
  `;
}

/** Have files read. @param {Iterable<File>} files */
async function take(files) {
  /** @type {Paste[]} */
  const pastes = [];
  for (const f of files) pastes.push({ id: newID(), name: f.name, data: await base64(f) });
  if (pastes.length) await read(pastes);
}

/** @param {Blob} blob @returns {Promise<string>} */
const base64 = (blob) =>
  new Promise((done, failed) => {
    const r = new FileReader();
    r.onload = () => done(String(r.result).replace(/^[^,]*,?/, ''));
    r.onerror = failed;
    r.readAsDataURL(blob);
  });

/**
 * Have the server read pastes. What does not get there is kept.
 * @param {Paste[]} pastes
 */
async function read(pastes) {
  busy.value = true;
  said.value = 'Reading …';
  /** @type {Found[]} */
  const all = [];
  const words = new Set();
  for (const p of pastes) {
    const answer = await ask(p).catch(() => null);
    if (answer?.error) words.add((p.name && p.name + ': ') + answer.error);
    else if (answer) all.push(...answer.recipes);
    else words.add('The server can’t be reached. It is kept on this phone and read when it can.');
    await save(['views'], (tx) => {
      const views = tx.objectStore('views');
      if (answer) views.delete(KEY + p.id);
      else views.put(p, KEY + p.id);
    });
  }
  await readKept();
  busy.value = false;
  said.value = [...words].join(' ');
  found.value = all;
}

/**
 * Ask the server what is in a file. It fails when the server can't be reached or can't work.
 * @param {{ name: string, data: string }} file
 * @returns {Promise<{ recipes: Found[], error?: string }>}
 */
async function ask({ name, data }) {
  const res = await fetch('/api/convert', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    cache: 'no-store',
    body: JSON.stringify({ name, data }),
    signal: AbortSignal.timeout?.(30_000),
  });
  if (res.status >= 500 || res.status === 429) throw res;
  return res.json();
}

const KEY = 'draft:paste:'; // kept like a draft of a card: nothing but reading it removes it

async function readKept() {
  kept.value = await (await db()).getAll('views', IDBKeyRange.bound(KEY, KEY + '\uffff'));
}

/** Take over what another app shared: the share sheet opens the app with it in the address. */
function takeShared() {
  const words = [...new URLSearchParams(location.search)];
  if (!words.some(([key]) => key.startsWith('shared-'))) return;
  history.replaceState(null, '', location.pathname + location.hash);
  typed.value = words.map(([, text]) => text).join('\n\n');
}
