// @ts-check
/**
 * Damage that was noticed. Of the server: records that it can't read any more; it names each once,
 * to a phone that fetches past it, and the phone keeps the count. Of this phone: texts that are not
 * what their revision says; they are taken out, and asked for again with each request.
 * @module
 */
import { html, signal } from './html.js';
import { meta, save } from './db.js';
import { tell } from './tabs.js';
import { count } from './words.js';

/** @typedef {import('./db.js').Transaction} Transaction */
/** @typedef {import('./answer.js').Reply} Reply */
/** A text that this phone lost. @typedef {Omit<import('./db.js').Revision, 'text'>} Lost */

/** How many records on the server are damaged. */
export const damaged = signal(0);
/** The texts that this phone lost and has not got back. */
export const lost = signal(/** @type {Lost[]} */ ([]));

/** Show what an earlier visit noticed. */
export function recallDamage() {
  damaged.value = meta.damaged.length;
  lost.value = meta.lost;
}

/**
 * Count what an answer names as damaged, within the transaction that keeps the answer. A restored
 * server counts anew: it tells the phone to start over.
 * @param {Transaction} tx on meta
 * @param {Reply} reply
 */
export async function countDamage(tx, reply) {
  const kept = tx.objectStore('meta');
  /** @type {string[]} */
  const before = reply.reset ? [] : ((await kept.get('damaged')) ?? []);
  const all = [...new Set([...before, ...(reply.damaged ?? []).map((d) => d.seq)])];
  if (all.length !== before.length || reply.reset) kept.put(all, 'damaged');
  damaged.value = all.length;
}

/**
 * Take out texts that the engine found not to be what their revisions say, and ask for them.
 * @param {string[]} revisions
 */
export async function discard(revisions) {
  if (revisions.length === 0) return;
  await save(['files', 'meta'], async (tx) => {
    const files = tx.objectStore('files'),
      kept = tx.objectStore('meta');
    /** @type {Lost[]} */
    const all = (await kept.get('lost')) ?? [];
    for (const revision of revisions) {
      const file = await files.get(revision);
      if (!file) continue;
      files.delete(revision);
      const { text: _, ...rest } = file;
      all.push(rest);
    }
    kept.put(all, 'lost');
    lost.value = all;
  });
  tell({ outbox: true }); // the tab that talks to the server asks for them
}

/**
 * Keep the texts that an answer brings back, within the transaction that keeps the answer.
 * @param {Transaction} tx on files and meta
 * @param {Reply} reply
 */
export async function regain(tx, reply) {
  const texts = new Map((reply.texts ?? []).map((t) => [t.revision, t.text]));
  for (const f of reply.files) texts.set(f.revision, f.text);
  const kept = tx.objectStore('meta');
  /** @type {Lost[]} */
  const before = (await kept.get('lost')) ?? [];
  const after = before.filter((l) => !texts.has(l.revision));
  if (after.length === before.length) return;
  for (const rest of before) {
    const text = texts.get(rest.revision);
    if (text !== undefined) tx.objectStore('files').put({ ...rest, text });
  }
  kept.put(after, 'lost');
  lost.value = after;
}

/** The words for what is damaged, where something is. */
export function Damage() {
  const n = damaged.value,
    names = [...new Set(lost.value.map((l) => l.name))];
  return html`
    ${
      n
        ? html`<p class="trouble" role="alert" id="damaged" data-damaged=${n}>
            ${count(n, 'record')} on the server ${n === 1 ? 'is' : 'are'} damaged. On the server,
            restore a backup: <code>hobside restore</code>.
          </p>`
        : null
    }
    ${
      names.length
        ? html`<p class="trouble" role="alert" id="lost-texts">
            Damaged on this phone and not used: ${names.join(', ')}. It is fetched again when the
            server is reached.
          </p>`
        : null
    }
  `;
}
