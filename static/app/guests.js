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
import { Problems, Top } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { Strip } from './strip.js';
import { clashKind, clashTitle, count } from './words.js';

/** The guests' screen. */
export function Guests() {
  const d = dinner.value;
  return html`
    <${Top} at="home" />
    <main id="guests">
      <${DinnerHead} at="guests" />
      ${
        d?.problems.some((f) => f.file === 'guests')
          ? html`<${Problems} problems=${d.problems.filter((f) => f.file === 'guests')} />`
          : null
      }
      ${d && !helper.value ? html`<${Change} d=${d} />` : null}
      ${
        !d
          ? html`<${Opening} />`
          : d.guests.length === 0
            ? html`<p>Nobody has said that they can’t have something.</p>`
            : d.guests.map(
                (g) => html`<section class="guest" data-clashes=${g.clashes.length}>
                  <h2>
                    ${count(g.covers, 'cover')}
                    ${g.exclude.length ? html` without ${g.exclude.join(', ')}` : ''}
                  </h2>
                  ${g.note ? html`<p class="soft">${g.note}</p>` : null}
                  <${Clashes} clashes=${g.clashes} />
                </section>`,
              )
      }
      ${
        d && d.sheet?.length
          ? html`<section id="sheet" class="sheet">
              <h2>Allergens, plate by plate</h2>
              <button type="button" id="print" onClick=${() => print()}>Print</button>
              ${d.sheet.map(
                (s) => html`<section class="plate-sheet" data-plate=${s.plate}>
                  <h3>
                    ${s.plate}
                    ${
                      s.for.length
                        ? html`<small> for ${s.for.map((x) => 'no ' + x).join(', ')}</small>`
                        : ''
                    } <small>${s.course}</small>
                  </h3>
                  <${Listed} name="EU, of fourteen" of=${s.eu} />
                  <${Listed} name="US, of nine" of=${s.us} />
                  ${
                    s.notAssessed.length
                      ? html`<p><b>Not assessed:</b> ${s.notAssessed.join('; ')}</p>`
                      : null
                  }
                  ${
                    s.without.length
                      ? html`<p>
                          Answered for by the card's author: without ${s.without.join('; ')}
                        </p>`
                      : null
                  }
                </section>`,
              )}
            </section>`
          : null
      }
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
      <button type="submit" class="main" id="keep-guests">Take it so</button>
      <button
        type="button"
        onClick=${() => {
          rows.value = null;
        }}
      >
        Leave it
      </button>
    </div>
  </form>`;
}

/**
 * The clashes of one group: what is not checked, what is sure, what may be, and, folded, what nobody
 * has assessed.
 * @param {{ clashes: import('./engine.d.ts').GroupClash[] }} props
 */
function Clashes({ clashes }) {
  const of = (/** @type {string} */ kind) => clashes.filter((c) => clashKind(c) === kind);
  const words = [...new Set(of('notChecked').map((c) => clashTitle(c)))];
  const list = (/** @type {string} */ kind) =>
    html`<ul class="clashes">
      ${of(kind).map(
        (c) =>
          html`<li class=${kind === 'sure' ? 'sure' : 'unsure'}>
            <b>${c.plate}</b>, ${c.course}: ${c.via.slice(1).join(' › ')}
          </li>`,
      )}
    </ul>`;
  return html`
    ${words.map((w) => html`<p class="trouble" role="alert" data-clash="notChecked">${w}</p>`)}
    ${of('sure').length ? list('sure') : null}
    ${of('may').length ? html`<h3>May contain it</h3> ${list('may')}` : null}
    ${
      of('unknown').length
        ? html`<details>
            <summary>Not assessed: ${count(of('unknown').length, 'item')}</summary>
            ${list('unknown')}
          </details>`
        : null
    }
    ${clashes.length ? null : html`<p>No clash found among the items the food table knows.</p>`}
  `;
}

/**
 * What was found of one list.
 * @param {{ name: string, of: import('./engine.d.ts').Allergen[] }} props
 */
function Listed({ name, of }) {
  if (of.length === 0) return html`<p class="soft">${name}: none found.</p>`;
  return html`
    <p>${name}:</p>
    <ul>
      ${of.map(
        (a) =>
          html`<li>
            <b>${a.certainty === 'may' ? 'May contain: ' : ''}${a.name}</b>, in ${a.via.join('; ')}
            ${a.certainty === 'usually' || a.certainty === 'probably' ? ` (${a.certainty})` : ''}
          </li>`,
      )}
    </ul>
  `;
}
