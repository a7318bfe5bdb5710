// @ts-check
/**
 * The order list: what to buy, by delivery and section of the shop, to tick in the shop.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { About } from './about.js';
import { db, save } from './db.js';
import { ask, engine, read } from './ask.js';
import { emit } from './events.js';
import { Asked, useFigure } from './figure.js';
import { dinner, from, dinnerID } from './state.js';
import { Top, TickRow } from './parts.js';
import { DinnerHead } from './dinner.js';
import { Strip } from './strip.js';
import { plan, planTrouble, work } from './plan.js';
import { to } from './router.js';
import { day, shortDay } from './words.js';

/** @typedef {import('./engine.d.ts').OrderList} OrderList */

const order = signal(/** @type {{ dinner: string, view: OrderList } | null} */ (null));
const trouble = signal('');

/** The order list's screen. */
export function Order() {
  const id = dinnerID.value,
    d = dinner.value,
    ready = engine.value === 'ready' && from.value === 'engine',
    starts = plan.value?.starts;
  useEffect(() => {
    look(id, ready);
  }, [id, d, ready, JSON.stringify(starts)]);
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
              ${view.planned ? null : html`<${NoPlan} />`}
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

/** Why no day is said for any of it. */
function NoPlan() {
  const blocked = plan.value?.blocked.length;
  return html`<p id="no-plan" class="trouble">
    Without a plan: no day is said for any of it.
    ${
      blocked
        ? html` <a href=${to.plan(dinnerID.value)}>There is no plan: see why</a>`
        : planTrouble.value
          ? ' ' + planTrouble.value
          : ''
    }
  </p>`;
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
  const planned = order.value?.view.planned;
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

/** @param {string} id @param {boolean} ready */
async function look(id, ready) {
  if (!id) return;
  if (order.peek()?.dinner !== id) {
    const json = await (await db()).get('views', 'order:' + id);
    if (json) order.value = { dinner: id, view: JSON.parse(json) };
  }
  if (!ready) return;
  try {
    let json = await ask('order', { dinner: id });
    // After a change there is no plan until it is worked out again. The list waits for it, so that
    // it does not lose its days for a second.
    if (!read(json).planned && !plan.peek()?.blocked.length) {
      await work();
      json = await ask('order', { dinner: id });
    }
    order.value = { dinner: id, view: read(json) };
    trouble.value = '';
    await save(['views'], (tx) => {
      tx.objectStore('views').put(json, 'order:' + id);
    });
  } catch (err) {
    trouble.value = err instanceof Error ? err.message : String(err);
  }
}
