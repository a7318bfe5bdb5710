// @ts-check
/**
 * The order list: what to buy, by section of the shop, to tick in the shop.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { db, save } from './db.js';
import { ask, engine, read } from './ask.js';
import { emit } from './events.js';
import { Asked, useFigure } from './figure.js';
import { dinner, from, dinnerID } from './state.js';
import { Top, TickRow } from './parts.js';
import { DinnerHead } from './dinner.js';
import { Strip } from './strip.js';
import { day } from './words.js';

/** @typedef {import('./engine.d.ts').OrderList} OrderList */

const order = signal(/** @type {{ dinner: string, view: OrderList } | null} */ (null));
const trouble = signal('');

/** The order list's screen. */
export function Order() {
  const id = dinnerID.value,
    d = dinner.value,
    ready = engine.value === 'ready' && from.value === 'engine';
  useEffect(() => {
    look(id, ready);
  }, [id, d, ready]);
  const view = order.value?.dinner === id ? order.value.view : null;
  return html`
    <${Top} at="home" />
    <main id="order">
      <${DinnerHead} at="order" />
      ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
      ${
        !view
          ? html`<p class="wait">Adding up …</p>`
          : html`
              <div class="order-list">
                ${view.sections.map(
                  (s) => html`<section key=${s.name}>
                    <h2>${s.name}</h2>
                    <ul class="mise">
                      ${s.lines.map(
                        (l) => html`<${TickRow}
                          key=${l.key}
                          on=${l.key}
                          label=${html`
                            <b class="amount">${l.buy}</b>
                            <span class="name">
                              ${l.name}
                              ${
                                l.buyBy
                                  ? html`<small>
                                      by ${day(l.buyBy)}${l.stale ? ', does not keep so long' : ''}
                                    </small>`
                                  : ''
                              }
                            </span>
                          `}
                        >
                          <details class="why">
                            <summary>
                              for ${l.for.length}${l.have ? ', have ' + l.have : ''}
                              <span class="unseen">: what wants ${l.name}</span>
                            </summary>
                            <ul>${l.for.map((f) => html`<li>${f}</li>`)}</ul>
                            ${
                              l.need
                                ? html`<p class="small">
                                    Used: ${l.need}${l.cost ? ', costs ' + l.cost : ''}
                                  </p>`
                                : ''
                            }
                            ${l.note ? html`<p class="small">${l.note}</p>` : ''}
                            ${l.need ? html`<${Have} line=${l} />` : ''}
                          </details>
                        <//>`,
                      )}
                    </ul>
                  </section>`,
                )}
              </div>
              ${
                view.cost
                  ? html`<p id="cost">
                      <b>${view.cost}</b>, ${view.perCover} a cover
                      ${
                        view.unpriced
                          ? html`; ${view.unpriced} lines have no price and are not in it`
                          : ''
                      }.
                    </p>`
                  : null
              }
              <p class="tools">
                <button type="button" id="print" onClick=${() => print()}>Print</button>
              </p>
            `
      }
    </main>
    <${Strip} />
  `;
}

/**
 * What is in the house already, which comes off what is bought: "250" in the line's own unit, or
 * "1,5 kg".
 * @param {{ line: import('./engine.d.ts').OrderLine }} props
 */
function Have({ line }) {
  const figure = useFigure((r) => {
    if (r.amount) emit('have', line.key, { amount: r.amount });
  });
  const say = (/** @type {any} */ e) => {
    e.preventDefault();
    const text = e.target.elements.have.value.trim();
    if (text) figure.read({ of: 'amount', text, unit: line.unit });
  };
  return html`<form class="row figures" onSubmit=${say}>
    <label>
      There already${line.unit ? ', ' + line.unit : ''}
      <input
        name="have"
        data-have=${line.key}
        inputmode="decimal"
        autocomplete="off"
        onInput=${figure.clear}
      />
    </label>
    <button type="submit" disabled=${figure.reading}>Note</button>
    <${Asked} figure=${figure} />
  </form>`;
}

/** @param {string} id @param {boolean} ready */
async function look(id, ready) {
  if (!id) return;
  if (order.peek()?.dinner !== id) {
    const json = await (await db()).get('views', 'order:' + id);
    if (json) order.value = { dinner: id, view: JSON.parse(json) };
  }
  if (!ready) return;
  try {
    const json = await ask('order', { dinner: id });
    order.value = { dinner: id, view: read(json) };
    trouble.value = '';
    await save(['views'], (tx) => {
      tx.objectStore('views').put(json, 'order:' + id);
    });
  } catch (err) {
    trouble.value = err instanceof Error ? err.message : String(err);
  }
}
