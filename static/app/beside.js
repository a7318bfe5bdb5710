// @ts-check
/**
 * Two versions of a card: two phones, or a phone and an import, changed the same lines. The server
 * keeps both beside each other and never mixes them; somebody chooses.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { db } from './db.js';
import { library, saveFile } from './library.js';
import { filesCame, helper } from './server.js';

/** @typedef {import('./db.js').Revision} Revision */

/** @type {import('../vendor/signals.js').Signal<{ newest: Revision, other: Revision } | null>} */
const pair = signal(null);
const trouble = signal('');

/** @param {string} name */
async function look(name) {
  const d = await db();
  const entry = await d.get('names', name);
  const newest = entry && (await d.get('files', entry.revision));
  const other = entry?.beside?.length && (await d.get('files', entry.beside[0]));
  pair.value = newest && other ? { newest, other } : null;
}

/**
 * The lines in which two texts differ: what is between those with which both begin and end.
 * @param {string} a @param {string} b @returns {[string, string]}
 */
export function difference(a, b) {
  const x = a.split('\n'),
    y = b.split('\n');
  while (x.length && y.length && x[0] === y[0]) {
    x.shift();
    y.shift();
  }
  while (x.length && y.length && x.at(-1) === y.at(-1)) {
    x.pop();
    y.pop();
  }
  return [x.join('\n'), y.join('\n')];
}

/**
 * Save one of the two as the newest. The other stays among the earlier texts.
 * @param {string} name @param {Revision} newest @param {Revision} other @param {boolean} takeOther
 */
async function choose(name, newest, other, takeOther) {
  try {
    if (takeOther) await saveFile(name, newest.revision, other.text);
    else await saveFile(name, newest.revision, newest.text, [other.revision]);
    trouble.value = '';
    await look(name);
  } catch (err) {
    trouble.value = 'Not saved: ' + (err instanceof Error ? err.message : err);
  }
}

/**
 * The two versions of a file with their differing lines, where it has two.
 * @param {{ name: string }} props
 */
export function Versions({ name }) {
  useEffect(() => {
    look(name);
  }, [name, filesCame.value, library.value]);
  const p = pair.value;
  if (!p || p.newest.name !== name) return null;
  const [mine, theirs] = difference(p.newest.text, p.other.text);
  const button = (/** @type {boolean} */ takeOther, /** @type {string} */ words) =>
    helper.value
      ? null
      : html`<button
          type="button"
          data-version=${takeOther ? 'other' : 'newest'}
          onClick=${() => choose(name, p.newest, p.other, takeOther)}
        >
          ${words}
        </button>`;
  return html`<section class="found" id="versions" aria-label="Two versions">
    <h2>Two versions: choose</h2>
    <p>
      The same lines were changed in two places. Choose one; the other stays among the earlier
      texts. To have something of both, choose one and edit it.
    </p>
    <p><b>In use now</b></p>
    <pre class="version">${mine || '(these lines are left out)'}</pre>
    ${button(false, 'Keep this one')}
    <p><b>The other</b></p>
    <pre class="version">${theirs || '(these lines are left out)'}</pre>
    ${button(true, 'Take the other')}
    ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
  </section>`;
}
