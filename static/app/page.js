// @ts-check
/**
 * One file of the library, as it reads on paper; scaled when asked.
 * @module
 */
import { html, signal, useEffect, useRef } from './html.js';
import { asking } from './about.js';
import { call, engine, Failed } from './ask.js';
import { composed } from './composition.js';
import { Cost } from './cost.js';
import { lazy } from './lazy.js';
import { library, loaded } from './library.js';
import { Versions } from './beside.js';
import { go, route, to } from './router.js';
import { NotFound } from './lost.js';
import { Problems, Top } from './parts.js';
import { hundred, Ratios } from './ratios.js';
import { fetched } from './server.js';

/** @typedef {import('./engine.d.ts').PageView} PageView */

const page = signal(/** @type {{ name: string, view: PageView } | null} */ (null));
const trouble = signal('');
const make = signal('');
/** What is typed for `make`, and not used yet. A redraw of the page keeps it. */
const typed = signal('');
/** The readings of `make` where it has two. */
const meant = signal(/** @type {string[]} */ ([]));
/** The line that `make` is of, 0 for what the card makes. */
const line = signal(0);

/** Whether nutrition is open. */
const nutrition = signal(false);
const Folded = lazy(() => import('./nutrition.js').then((m) => m.Folded));

/** The page's screen. */
export function Page() {
  const name = route.value.card,
    lib = library.value,
    ready = engine.value === 'ready';
  useEffect(() => {
    make.value = typed.value = '';
    meant.value = [];
    line.value = 0;
    hundred.value = [];
  }, [name]);
  useEffect(() => {
    look(name, make.value);
  }, [name, lib, ready, make.value, line.value, hundred.value, composed.value]);
  const view = page.value?.name === name ? page.value.view : null;
  const missing = ready && fetched.value && lib && !lib.files.some((f) => f.name === name);
  return html`
    <${Top} at="cards" />
    <main id="page" class="paper" data-file=${name}>
      <div class="head-row">
        <a class="up" href="#/cards"><span aria-hidden="true">‹</span> Cards</a>
        <span class="row">
          ${
            view?.kind === 'menu'
              ? html`<a class="button" href=${to.fresh(name)}>New dinner</a>`
              : null
          }
          ${
            missing
              ? null
              : html`
                  <button type="button" id="print" onClick=${() => print()}>Print</button>
                  <a class="button" id="edit" href=${to.edit(name)}>Edit</a>
                `
          }
        </span>
      </div>
      ${
        view?.kind === 'card'
          ? html`<form
              class="scale"
              onSubmit=${(/** @type {any} */ e) => {
                e.preventDefault();
                line.value = Number(e.target.elements.of.value);
                make.value = typed.value = typed.value.trim();
              }}
            >
              <label>
                Make
                <input
                  id="scale-to"
                  name="make"
                  placeholder=${view.makes}
                  value=${typed.value}
                  onInput=${(/** @type {any} */ e) => {
                    typed.value = e.target.value;
                  }}
                  autocomplete="off"
                />
              </label>
              <label>
                of
                <select id="scale-of" name="of">
                  <option value="0">all of it</option>
                  ${view.card?.items
                    .filter((i) => i.amount && !i.exact.toTaste)
                    .map((i) => html`<option value=${i.item}>${i.name}</option>`)}
                </select>
              </label>
              <button type="submit" id="scale">Scale</button>
            </form>`
          : null
      }
      <${Versions} name=${name} />
      ${
        trouble.value && !missing
          ? html`<div class="trouble asked" role="alert">
              <p>${trouble.value}</p>
              ${meant.value.map(
                (text) => html`<button
                  type="button"
                  data-reading=${text}
                  onClick=${() => {
                    make.value = typed.value = text;
                  }}
                >
                  ${text}
                </button>`,
              )}
            </div>`
          : null
      }
      ${
        view
          ? html`
              <${Markdown} view=${view} />
              ${
                view.card?.cost ? html`<${Cost} of=${view.card.cost} name="What it makes" />` : null
              }
              ${view.card?.items.length ? html`<${Ratios} card=${view.card} />` : null}
              ${
                view.kind === 'card'
                  ? html`<details
                      class="ratios"
                      id="nutrition"
                      open=${nutrition.value}
                      onToggle=${(/** @type {any} */ e) => {
                        nutrition.value = e.currentTarget.open;
                      }}
                    >
                      <summary>Nutrition</summary>
                      ${nutrition.value ? html`<${Folded} of=${view.card?.nutrition} />` : null}
                    </details>`
                  : null
              }
              ${
                view.problems.length
                  ? html`<section class="found">
                      <h2>Problems</h2>
                      <${Problems} problems=${view.problems} pick=${() => go(to.edit(name))} />
                    </section>`
                  : null
              }
            `
          : missing
            ? html`<${NotFound}
                what="This card is not on this phone."
                why=${
                  'There is no file “' +
                  name +
                  '” here. It may have another name, or come when the server is reached.'
                }
                href="#/cards"
                way="To the cards"
              />`
            : html`<p class="wait">Reading the card …</p>`
      }
    </main>
  `;
}

/**
 * The engine's HTML: it lets no raw HTML, script or style of the author through. The name of an
 * ingredient becomes a button that tells about it.
 * @param {{ view: PageView }} props
 */
export function Markdown({ view }) {
  const prose = useRef(/** @type {HTMLElement | null} */ (null));
  useEffect(() => {
    for (const cell of prose.current?.querySelectorAll('td[data-item]') ?? []) {
      if (cell.firstElementChild || !cell.textContent) continue;
      const button = document.createElement('button');
      button.type = 'button';
      button.className = 'about-words';
      button.dataset.about = cell.textContent;
      button.setAttribute('aria-haspopup', 'dialog');
      button.append(...cell.childNodes);
      cell.append(button);
    }
  }, [view.html]);
  return html`<article
    ref=${prose}
    class="prose"
    id="prose"
    onClick=${follow}
    dangerouslySetInnerHTML=${{ __html: view.html }}
  ></article>`;
}

/**
 * A link from card to card stays in the app; an ingredient opens its window.
 * @param {MouseEvent} e
 */
function follow(e) {
  const about = /** @type {HTMLElement} */ (e.target).closest('button')?.dataset.about;
  const item = /** @type {HTMLElement} */ (e.target).closest('td')?.dataset.item;
  if (about) {
    const { at, card } = route.peek(); // what is still being typed has no line yet
    asking.value =
      at === 'page'
        ? { name: about, card: card.replace(/\.md$/, ''), item: Number(item) }
        : { name: about };
    return;
  }
  const a = /** @type {HTMLElement} */ (e.target).closest('a');
  const href = a?.getAttribute('href') ?? '';
  const m = /^(?:\.\/|\.\.\/cards\/|cards\/)?([^/#]+\.md)(#.*)?$/.exec(href);
  if (!m) return;
  e.preventDefault();
  go(to.card(decodeURIComponent(m[1])));
}

/** @param {string} name @param {string} scaled */
async function look(name, scaled) {
  try {
    await loaded();
    const view = await call('read', {
      name,
      ...(scaled ? { make: scaled, ...(line.peek() ? { line: line.peek() } : {}) } : {}),
      ...(hundred.peek().length ? { hundred: hundred.peek() } : {}),
    });
    if (route.peek().card !== name) return;
    page.value = { name, view };
    trouble.value = '';
    meant.value = [];
  } catch (err) {
    meant.value = err instanceof Failed ? err.meant : [];
    trouble.value = err instanceof Error ? err.message : String(err);
  }
}
