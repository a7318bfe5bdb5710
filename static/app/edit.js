// @ts-check
/**
 * Writing a card: the text as typed, with what the engine finds in it as it is typed. Saved on this
 * phone first, and as a draft at every pause, so that a killed tab loses no words.
 * @module
 */
import { html, signal, useEffect, useRef } from './html.js';
import { db, save } from './db.js';
import { call, engine } from './ask.js';
import { now } from './clock.js';
import { library, newest, revisions, saveFile } from './library.js';
import { go, route, to } from './router.js';
import { NotFound } from './lost.js';
import { Problems, Top } from './parts.js';
import { Markdown } from './page.js';
import { when } from './words.js';
import { blank, fileName } from './newcard.js';

/** @typedef {import('./engine.d.ts').PageView} PageView */

const text = signal('');
const base = signal('');
const ready = signal('');
const view = signal(/** @type {PageView | null} */ (null));
/** What happened to the text, in words; and whether it is saved as it is. */
const saved = signal(''),
  isSaved = signal(false);
const preview = signal(false);
const older = signal(/** @type {import('./db.js').Revision[]} */ ([]));

const draft = (/** @type {string} */ name) => 'draft:' + (name || 'new');

/** The editor's screen. */
export function Edit() {
  const name = route.value.at === 'blank' ? '' : route.value.card;
  const area = useRef(/** @type {HTMLTextAreaElement | null} */ (null));
  useEffect(() => {
    begin(name);
  }, [name]);
  useEffect(() => {
    if (ready.value !== name + '!') return;
    const pause = setTimeout(() => {
      look(name);
      keepDraft(name);
    }, 250);
    return () => clearTimeout(pause);
  }, [text.value, ready.value, engine.value]);
  const pick = (/** @type {import('./engine.d.ts').Problem} */ f) => {
    const at =
      text
        .peek()
        .split('\n')
        .slice(0, f.line - 1)
        .reduce((n, l) => n + l.length + 1, 0) +
      f.col -
      1;
    area.current?.focus();
    area.current?.setSelectionRange(at, at + 1);
  };
  if (name && ready.value === name + '?')
    return html`
      <${Top} at="cards" />
      <main id="edit-page" class="narrow" data-file=${name}>
        <${NotFound}
          what="This card is not on this phone."
          why=${'There is no file “' + name + '” here, and no draft of it.'}
          href="#/cards"
          way="To the cards"
        />
      </main>
    `;
  const v = view.value;
  const errors = v?.problems.filter((f) => f.severity === 'error').length ?? 0;
  return html`
    <${Top} at="cards" />
    <main
      id="edit-page"
      class="edit"
      data-file=${name}
      data-errors=${v ? errors : ''}
      data-problems=${v ? v.problems.length : ''}
    >
      <div class="head-row">
        <a class="up" href=${name ? to.card(name) : '#/cards'}>
          <span aria-hidden="true">‹</span> ${name ? 'Back to the card' : 'Cards'}
        </a>
        <button
          type="button"
          id="preview"
          aria-pressed=${preview.value ? 'true' : 'false'}
          onClick=${() => {
            preview.value = !preview.value;
          }}
        >
          Preview
        </button>
      </div>
      <h1>${name || 'A new card'}</h1>
      <div class="two">
        <div>
          <label class="unseen" for="card-text">Text of the card</label>
          <textarea
            id="card-text"
            ref=${area}
            spellcheck="true"
            autocapitalize="sentences"
            rows="24"
            value=${text.value}
            onInput=${(/** @type {any} */ e) => {
              text.value = e.target.value;
              saved.value = '';
              isSaved.value = false;
            }}
          ></textarea>
          <button
            type="button"
            class="main wide"
            id="save-card"
            disabled=${ready.value !== name + '!'}
            onClick=${() => keep(name)}
          >
            Save
          </button>
          <p role="status" id="saved" data-saved=${saved.value ? '1' : '0'}>${saved.value}</p>
        </div>
        <div>
          ${preview.value && v ? html`<${Markdown} view=${v} />` : null}
          <section aria-live="polite" aria-label="Problems" id="problems">
            ${
              !v
                ? html`<p class="soft">Problems are shown when the engine has started.</p>`
                : v.problems.length === 0
                  ? html`<p class="soft">No problems.</p>`
                  : html`<${Problems} problems=${v.problems} pick=${pick} />`
            }
          </section>
          ${
            older.value.length > 1
              ? html`<details class="found">
                  <summary>Earlier texts (${older.value.length - 1})</summary>
                  <ul class="older">
                    ${older.value
                      .filter((r) => r.revision !== base.value)
                      .map(
                        (r) => html`<li>
                          <button
                            type="button"
                            data-revision=${r.revision}
                            onClick=${() => {
                              text.value = r.text;
                              saved.value = '';
                              isSaved.value = false;
                            }}
                          >
                            ${when(r.at, now(), '')}, ${r.text.length} characters
                          </button>
                        </li>`,
                      )}
                  </ul>
                </details>`
              : null
          }
        </div>
      </div>
    </main>
  `;
}

/** @param {string} name */
async function begin(name) {
  ready.value = '';
  view.value = null;
  saved.value = '';
  isSaved.value = false;
  const [file, kept, all] = await Promise.all([
    name ? newest(name) : null,
    (await db()).get('views', draft(name)),
    name ? revisions(name) : [],
  ]);
  base.value = kept?.base ?? file?.revision ?? '';
  text.value = kept?.text ?? file?.text ?? blank;
  older.value = all;
  if (kept) saved.value = 'Your words from before, not saved to the card yet.';
  ready.value = name + (name && !file && !kept ? '?' : '!');
}

/** @param {string} name */
async function look(name) {
  const typed = text.peek();
  const file = { name: name || 'new-card.md', text: typed || ' ' };
  const answer = await call('read', file, [file]).catch(() => null);
  if (answer && typed === text.peek()) view.value = answer;
}

/** @param {string} name */
function keepDraft(name) {
  if (isSaved.peek()) return;
  newest(name)
    .then((file) => {
      const same = file?.text === text.peek() || (!name && text.peek() === blank);
      return save(['views'], (tx) => {
        if (same) tx.objectStore('views').delete(draft(name));
        else tx.objectStore('views').put({ base: base.peek(), text: text.peek() }, draft(name));
      });
    })
    .catch(() => {});
}

/** @param {string} name */
async function keep(name) {
  const title = /^#\s+(.+)$/m.exec(text.peek())?.[1] ?? '';
  let as = name;
  if (!name) {
    as = fileName(title);
    for (let n = 2; library.peek()?.files.some((f) => f.name === as); n++)
      as = fileName(title + ' ' + n);
  }
  try {
    const revision = await saveFile(as, base.peek(), text.peek());
    await save(['views'], (tx) => {
      tx.objectStore('views').delete(draft(name));
    });
    base.value = revision;
    isSaved.value = true;
    saved.value = 'Saved on this phone; it goes to the server by itself.';
    if (!name) go(to.card(as), { replace: true });
    else older.value = await revisions(name);
  } catch (err) {
    saved.value = 'Not saved: ' + (err instanceof Error ? err.message : err);
  }
}
