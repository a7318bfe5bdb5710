// @ts-check
/**
 * The order list: what to buy, by delivery and section of the shop, to tick in the shop.
 * @module
 */
import { html } from './html.js';
import { About } from './about.js';
import { emit } from './events.js';
import { Asked, useFigure } from './figure.js';
import { dinnerID } from './state.js';
import { Top, TickRow } from './parts.js';
import { DinnerHead } from './dinner.js';
import { Strip } from './strip.js';
import { NoPlan, worklist } from './worklist.js';
import { day, shortDay } from './words.js';

/** @typedef {import('./engine.d.ts').OrderList} OrderList */

const list = worklist('order');

/** The order list's screen. */
export function Order() {
  list.follow();
  const view = /** @type {OrderList | null} */ (list.view.value),
    trouble = list.trouble.value;
  return html`
    <${Top} at="home" />
    <main id="order">
      <${DinnerHead} at="order" />
      ${trouble ? html`<p class="trouble" role="alert">${trouble}</p>` : null}
      ${
        !view
          ? html`<p class="wait">Adding up …</p>`
          : html`
              ${
                view.planned
                  ? null
                  : html`<${NoPlan}>Without a plan: no day is said for any of it.<//>`
              }
              ${
                view.spares.length
                  ? html`<p id="spares" class="soft">With spares: ${view.spares.join('; ')}.</p>`
                  : null
              }
              ${days(view).map((day) => html`<${Day} key=${day.day} of=${day} />`)}
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
 * What comes on one day, by section of the shop; no day for what no delivery holds.
 * @typedef {{ day: string, sections: import('./engine.d.ts').OrderSection[] }} OrderDay
 */

/**
 * The list by delivery, then by section of the shop.
 * @param {OrderList} view @returns {OrderDay[]}
 */
function days(view) {
  const given = new Set(view.deliveries.flatMap((x) => x.keys));
  const only = (/** @type {(key: string) => boolean} */ held) =>
    view.sections
      .map((s) => ({ ...s, lines: s.lines.filter((l) => held(l.key)) }))
      .filter((s) => s.lines.length);
  return [
    ...view.deliveries.map((x) => ({ day: x.day, sections: only((key) => x.keys.includes(key)) })),
    { day: '', sections: only((key) => !given.has(key)) },
  ].filter((x) => x.sections.length);
}

/** One delivery. @param {{ of: OrderDay }} props */
function Day({ of }) {
  const planned = list.view.value?.planned;
  return html`<section class="delivery" data-day=${of.day}>
    ${planned ? html`<h2>${of.day ? 'For ' + day(of.day) : 'On any day'}</h2>` : null}
    <div class="order-list">
      ${of.sections.map(
        (s) => html`<section key=${s.name}>
          ${planned ? html`<h3>${s.name}</h3>` : html`<h2>${s.name}</h2>`}
          <ul class="mise">${s.lines.map((l) => html`<${Line} key=${l.key} l=${l} />`)}</ul>
        </section>`,
      )}
    </div>
  </section>`;
}

/** One thing to buy. @param {{ l: import('./engine.d.ts').OrderLine }} props */
function Line({ l }) {
  return html`<${TickRow}
    on=${l.key}
    label=${html`
      <b class="amount">${l.buy}</b>
      <span class="name">
        ${l.name}
        ${
          l.buyBy
            ? html`<small class="by">
                buy by ${shortDay(l.buyBy)}
                ${l.stale ? html`, <b class="late">does not keep until its last use</b>` : ''}
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
        l.need ? html`<p class="small">Used: ${l.need}${l.cost ? ', costs ' + l.cost : ''}</p>` : ''
      }
      ${l.note ? html`<p class="small">${l.note}</p>` : ''}
      <${About} of=${{ name: l.name, dinner: dinnerID.value }}>About ${l.name}<//>
      ${l.need ? html`<${Have} line=${l} />` : ''}
    </details>
  <//>`;
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
