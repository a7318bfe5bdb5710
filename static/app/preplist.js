// @ts-check
/**
 * The prep list: what each cook gets ready on each day, every ingredient once for all its cards. A
 * line that is ticked ticks the mise en place of its cards.
 * @module
 */
import { html } from './html.js';
import { me } from './plan.js';
import { Top, TickRow } from './parts.js';
import { DinnerHead } from './dinner.js';
import { Strip } from './strip.js';
import { NoPlan, worklist } from './worklist.js';
import { day, hour } from './words.js';

/** @typedef {import('./engine.d.ts').PrepList} PrepList */
/** @typedef {import('./engine.d.ts').PrepDay} PrepDay */

const list = worklist('prep');

/** The prep list's screen. */
export function Prep() {
  list.follow();
  const v = /** @type {PrepList | null} */ (list.view.value),
    trouble = list.trouble.value;
  return html`
    <${Top} at="home" />
    <main id="prep">
      <${DinnerHead} at="prep" />
      ${trouble ? html`<p class="trouble" role="alert">${trouble}</p>` : null}
      ${v && !v.planned ? html`<${NoPlan}>Without a plan there is no prep list.<//>` : null}
      ${
        v
          ? v.days
              .filter((d) => !me.value || !d.cook || d.cook === me.value)
              .map((d) => html`<${Day} key=${d.day + d.cook} of=${d} />`)
          : html`<p class="wait">Adding up …</p>`
      }
      <p class="tools"><button type="button" id="print" onClick=${() => print()}>Print</button></p>
    </main>
    <${Strip} />
  `;
}

/** What one cook gets ready on one day. @param {{ of: PrepDay }} props */
function Day({ of }) {
  return html`<section class="delivery" data-day=${of.day}>
    <h2>${day(of.day)}${of.who ? html` <span class="soft">${of.who}</span>` : null}</h2>
    <ul class="mise order-list">
      ${of.lines.map(
        (l) => html`<${TickRow}
          key=${l.keys.join()}
          on=${l.keys}
          label=${html`
            <time>${hour(l.by)}</time>
            <span class="name">
              <b>${l.name}</b>
              ${l.parts.map((p) => html`<small><b>${p.amount}</b> ${p.work} · ${p.for}</small>`)}
            </span>
          `}
        />`,
      )}
    </ul>
  </section>`;
}
