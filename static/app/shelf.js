// @ts-check
/**
 * Dinners put away and deleted. Nothing of them is lost: their events stay on the phone and on the
 * server, and each can be brought back.
 * @module
 */
import { html } from './html.js';
import { emit } from './events.js';
import { dinners, readDinners } from './home.js';
import { go, to } from './router.js';
import { helper } from './server.js';
import { state } from './state.js';
import { date } from './words.js';

/** Where a dinner is listed, as internal/dinner counts it. */
const LISTED = 0,
  AWAY = 1,
  DELETED = 2;

/** @param {string} id @param {number} number */
const put = (id, number) =>
  emit('shelve', '', { number }, id)
    .then(readDinners)
    .catch(() => {}); // not saved: the top of the page says so

/** The dinners that are not in the list, on the first screen. */
export function Shelved() {
  const all = dinners.value ?? [];
  return html`
    ${[
      { shelf: AWAY, id: 'put-away', title: 'Put away' },
      { shelf: DELETED, id: 'deleted', title: 'Deleted' },
    ].map(({ shelf, id, title }) => {
      const lines = all.filter((l) => l.shelf === shelf);
      if (!lines.length) return null;
      return html`<details class="found" id=${id} key=${id}>
        <summary>${title}: ${lines.length}</summary>
        <ul class="plain">
          ${lines.map(
            (l) => html`<li key=${l.id} data-shelved=${l.id}>
              <a href=${to.dinner(l.id)}>${l.title}, ${date(l.serve)}</a>
              ${
                helper.value
                  ? null
                  : html`<span class="tools">
                      <button
                        type="button"
                        class="quiet"
                        data-bring-back=${l.id}
                        onClick=${() => put(l.id, LISTED)}
                      >
                        Bring back
                      </button>
                      ${
                        shelf === AWAY
                          ? html`<button
                              type="button"
                              class="quiet"
                              data-delete=${l.id}
                              onClick=${() => put(l.id, DELETED)}
                            >
                              Delete
                            </button>`
                          : null
                      }
                    </span>`
              }
            </li>`,
          )}
        </ul>
        ${
          shelf === DELETED
            ? html`<p class="small">
                Nothing that was written down is erased: the server keeps it.
              </p>`
            : null
        }
      </details>`;
    })}
  `;
}

/** Put the open dinner away, or bring it back. @param {{ id: string }} props */
export function PutAway({ id }) {
  const shelf = state.value?.shelf ?? LISTED;
  return html`<p class="tools">
    <button
      type="button"
      class="quiet"
      id="shelve"
      onClick=${async () => {
        await put(id, shelf ? LISTED : AWAY);
        if (!shelf) go('#/');
      }}
    >
      ${shelf ? 'Bring this dinner back to the list' : 'Put this dinner away'}
    </button>
  </p>`;
}
