// @ts-check
/**
 * The window of an ingredient: what the food table knows, each with its source, what holds on the
 * card's line, and what 100 g consist of.
 * @module
 */
import { html, useEffect, useSignal } from './html.js';
import { asking } from './about.js';
import { call } from './ask.js';
import { composed } from './composition.js';
import { Declaration, Folded } from './nutrition.js';
import { Dialog } from './parts.js';

/** @typedef {import('./engine.d.ts').Fact} Fact */
/** @typedef {import('./engine.d.ts').FoodView} FoodView */

/** The window. @param {{ of: import('./about.js').Asking }} props */
export function Food({ of }) {
  const view = useSignal(/** @type {FoodView | null} */ (null));
  const trouble = useSignal('');
  useEffect(() => {
    call('food', of).then(
      (v) => {
        view.value = v;
      },
      (err) => {
        trouble.value = err.message;
      },
    );
  }, [composed.value]);
  const v = view.value;
  return html`<${Dialog}
    id="food"
    title=${of.name}
    close=${() => {
      asking.value = null;
    }}
  >
    ${
      trouble.value
        ? html`<p class="trouble" role="alert">${trouble.value}</p>`
        : v
          ? html`<${Known} v=${v} typed=${of.name} />`
          : html`<p class="wait">Looking it up …</p>`
    }
  <//>`;
}

/** @param {{ v: FoodView, typed: string }} props */
function Known({ v, typed }) {
  return html`
    ${
      v.known
        ? v.same
          ? v.name === typed
            ? null
            : html`<p id="food-name">In the food table: <b>${v.name}</b></p>`
          : html`<p id="food-assumed">
              Not in the food table itself: what follows is assumed, not known.
            </p>`
        : html`<p class="trouble" id="food-unknown">
            The food table has nothing like it
            ${v.didYouMean ? html`. Did you mean <b>${v.didYouMean}</b>?` : ''}. Its allergens are <b>
              not assessed
            </b>: read the label.
          </p>`
    }
    ${v.here.length ? html`<h3>On this card</h3><${Facts} of=${v.here} />` : null}
    ${v.facts.length ? html`<${Facts} of=${v.facts} />` : null}
    ${v.known ? html`<${Consists} v=${v} />` : null}
  `;
}

/** Facts with their sources. @param {{ of: Fact[] }} props */
function Facts({ of }) {
  return html`<dl class="facts">
    ${of.map(
      (f) => html`
        <dt>${f.word}</dt>
        <dd class=${f.assumed ? 'assumed' : ''} data-fact=${f.word}>
          <b>${f.value}</b>
          ${f.assumed ? html` <span class="guess">assumed</span>` : ''}
          ${f.source ? html`<small>${f.source}</small>` : ''}
        </dd>
      `,
    )}
  </dl>`;
}

/** What 100 g of it consist of. @param {{ v: FoodView }} props */
function Consists({ v }) {
  const open = useSignal(composed.peek());
  if (v.compositions)
    return v.per100.length
      ? html`<div class="nutrition">
          <${Declaration} name="EU, UK" portion="" of=${v.per100} each=${[]} />
          <p class="small">${v.per100Source}</p>
        </div>`
      : html`<p class="small">What it consists of is not known.</p>`;
  return open.value
    ? html`<${Folded} of=${null} />`
    : html`<button
        type="button"
        id="consists"
        onClick=${() => {
          open.value = true;
        }}
      >
        What 100 g consist of
      </button>`;
}
