// @ts-check
/**
 * The library: every card, menu and kitchen, to find and to read. The engine finds; this screen
 * asks it, and draws no more of ten thousand cards than a thumb would scroll through.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { call } from './ask.js';
import { inTwo, library, loaded } from './library.js';
import { to } from './router.js';
import { Problems, Top } from './parts.js';
import { count } from './words.js';

/** @typedef {import('./engine.d.ts').FindView} FindView */

const PAGE = 60;
const looked = signal('');
const most = signal(PAGE);
/** The engine's answer to the words that were asked last; null while none were. */
const found = signal(/** @type {FindView | null} */ (null));

/** Ask the engine for what is typed. An answer to something typed earlier is dropped. */
async function look() {
  const words = looked.peek();
  if (!words.trim()) {
    found.value = null;
    return;
  }
  await loaded();
  const answer = await call('find', { words, most: most.peek() });
  if (words === looked.peek()) found.value = answer;
}

/** The library's screen. */
export function Cards() {
  const lib = library.value;
  useEffect(() => {
    look();
  }, [looked.value, most.value, lib]);
  const files = new Map((lib?.files ?? []).map((f) => [f.name, f]));
  const some = looked.value.trim()
    ? found.value
    : {
        total: files.size,
        hits: [...files.keys()].slice(0, most.value).map((name) => ({ name, has: '' })),
      };
  const shown = (some?.hits ?? []).flatMap((h) => {
    const f = files.get(h.name);
    return f ? [{ ...f, has: h.has }] : [];
  });
  const kinds = [
    ['menu', 'Menus'],
    ['card', 'Cards'],
    ['kitchen', 'Kitchens'],
    ['foods', 'Foods'],
  ];
  return html`
    <${Top} at="cards" />
    <main id="cards">
      <div class="head-row">
        <h1>Cards</h1>
        <div class="row">
          <a class="button" id="new-card" href="#/cards/new">New card</a>
          <a class="button" id="bring-in" href="#/cards/bring">Bring a recipe in</a>
        </div>
      </div>
      <label class="find">
        Find <small>by name, or by what goes in</small>
        <input
          type="search"
          id="search"
          value=${looked.value}
          autocomplete="off"
          onInput=${(/** @type {any} */ e) => {
            most.value = PAGE;
            looked.value = e.target.value;
          }}
        />
      </label>
      <p class="unseen" role="status">${some ? count(some.total, 'file') + ' found' : ''}</p>
      ${
        !lib
          ? html`<p class="wait">Reading the cards …</p>`
          : kinds.map(([kind, title]) => {
              const of = shown.filter((f) => f.kind === kind);
              return of.length === 0
                ? null
                : html`<section key=${kind}>
                    <h2>${title}</h2>
                    <ul class="menus">
                      ${of.map(
                        (f) => html`<li key=${f.name}>
                          <a href=${to.card(f.name)} data-file=${f.name}>
                            <b>${f.title || f.name}</b>
                            <small>
                              ${[
                                inTwo.value.has(f.name) ? 'two versions: choose' : '',
                                f.has ? 'has ' + f.has : '',
                                f.makes,
                                f.covers && kind === 'menu' ? count(f.covers, 'cover') : '',
                                f.errors ? count(f.errors, 'error') : '',
                                f.warnings ? count(f.warnings, 'warning') : '',
                              ]
                                .filter(Boolean)
                                .join(', ')}
                            </small>
                          </a>
                        </li>`,
                      )}
                    </ul>
                  </section>`;
            })
      }
      ${
        lib && some && some.total > shown.length
          ? html`<p>
              <button
                type="button"
                class="wide"
                id="more-cards"
                onClick=${() => {
                  most.value += PAGE * 5;
                }}
              >
                More: ${some.total - shown.length} are not shown
              </button>
            </p>`
          : null
      }
      ${
        lib && some && some.total === 0
          ? html`<p>Nothing of that name, and nothing with it in.</p>`
          : null
      }
      ${
        lib?.problems.length
          ? html`<details class="found" id="all-problems">
              <summary>${count(lib.problems.length, 'problem')} in the library</summary>
              <${Problems} problems=${lib.problems} file=${true} />
            </details>`
          : null
      }
    </main>
  `;
}
