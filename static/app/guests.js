// @ts-check
/**
 * The guests with exclusions, and the plates that clash with them. Says what was found, never that
 * something is safe.
 * @module
 */
import { html, useSignal } from './html.js';
import { dinner } from './state.js';
import { emit } from './events.js';
import { helper } from './server.js';
import { GuestRows, linesOf, rowsOf } from './guestrows.js';
import { Clashes, nameOf, Take } from './clashes.js';
import { Problems, Top } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { Sheet } from './sheet.js';
import { Strip } from './strip.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */

/** The guests' screen. */
export function Guests() {
  const d = dinner.value;
  const faults = d?.problems.filter((f) => f.file === 'guests' && !f.guests) ?? [];
  return html`
    <${Top} at="home" />
    <main id="guests">
      <${DinnerHead} at="guests" />
      ${faults.length ? html`<${Problems} problems=${faults} />` : null}
      ${
        !d
          ? html`<${Opening} />`
          : d.guests.length === 0
            ? html`<p>Nobody has said that they can’t have something.</p>`
            : html`<${Clashes} d=${d} /><${Who} d=${d} />`
      }
      ${d && !helper.value ? html`<${Change} d=${d} />` : null}
      ${d && d.sheet?.length ? html`<${Sheet} d=${d} />` : null}
      ${
        d && (d.guests.length || d.sheet?.length)
          ? html`<p class="small">
              Checked: the items of each card by name, against the food table and what the cards say
              they contain. Not checked: labels of what was bought, traces, shared boards and oil.
              Read the labels and ask the guest.
            </p>`
          : null
      }
    </main>
    <${Strip} />
  `;
}

/** Each group of guests, with how they stand. @param {{ d: DinnerView }} props */
function Who({ d }) {
  return html`<section aria-labelledby="who-h">
    <h2 id="who-h">Guests who can’t have something</h2>
    <ul class="groups">
      ${d.guests.map(
        (g) => html`<li class="guest" data-clashes=${g.clashes.length}>
          <p>
            <b>${nameOf(g)}</b>
            ${g.note ? html` <span class="soft">(${g.note})</span>` : ''}
            ${
              g.clashes.length || g.notRead.length
                ? null
                : html`<small>No clash found among the items the food table knows.</small>`
            }
          </p>
          ${g.seated.map(
            (s) => html`<p class="seated">
              <span>${s.course}: they get <b>${s.plate}</b>.</span>
              ${helper.value ? null : html`<${Take} way=${s} />`}
            </p>`,
          )}
        </li>`,
      )}
    </ul>
  </section>`;
}

/**
 * A guest says late what they can't have: every plate and amount follows.
 * @param {{ d: import('./engine.d.ts').DinnerView }} props
 */
function Change({ d }) {
  const rows = useSignal(/** @type {import('./guestrows.js').Row[] | null} */ (null));
  const trouble = useSignal('');
  const keep = async (/** @type {Event} */ e) => {
    e.preventDefault();
    try {
      const text = await linesOf(rows.peek() ?? []);
      emit('guests', '', { text });
      rows.value = null;
      trouble.value = '';
    } catch (err) {
      trouble.value = 'Not taken: ' + (err instanceof Error ? err.message : err);
    }
  };
  if (!rows.value)
    return html`<p class="tools">
      <button
        type="button"
        id="change-guests"
        onClick=${() => {
          rows.value = d.guests.length ? rowsOf(d.guests) : [{ covers: '1', no: '', note: '' }];
        }}
      >
        Change
      </button>
    </p>`;
  return html`<form class="form" onSubmit=${keep}>
    <${GuestRows}
      rows=${rows.value}
      change=${(/** @type {import('./guestrows.js').Row[]} */ r) => {
        rows.value = r;
      }}
    />
    ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
    <div class="row">
      <button type="submit" class="main" id="keep-guests">Save</button>
      <button
        type="button"
        onClick=${() => {
          rows.value = null;
        }}
      >
        Cancel
      </button>
    </div>
  </form>`;
}
