// @ts-check
/**
 * The top of cook mode: the card, how far it is, and the clock against the next course.
 * @module
 */
import { html, useComputed } from './html.js';
import { minute } from './clock.js';
import { dinner, serve, tick } from './state.js';
import { route, to } from './router.js';
import { clock, hour, moment, span } from './words.js';
import { elsewhere } from './zone.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */
/** @typedef {import('./engine.d.ts').BatchView} BatchView */
/** @typedef {import('./engine.d.ts').CardView} CardView */

/** The top. @param {{ card: CardView, batch: BatchView, step?: StepView }} props */
export function Head({ card, batch, step }) {
  const r = route.value;
  const many = card.batches.length > 1 ? ', ' + r.batch + ' of ' + card.batches.length : '';
  return html`<header class="stove-top">
    <a id="to-batch" class="up" href=${to.batch(r.id, r.card, r.batch)}>
      <span aria-hidden="true">‹</span> ${card.title}${many}
    </a>
    <${Against} />
    <ol
      class="notches"
      aria-label=${
        step ? 'Step ' + (batch.steps.indexOf(step) + 1) + ' of ' + batch.steps.length : 'All steps'
      }
    >
      ${batch.steps.map((s) => html`<${Notch} key=${s.key} on=${s.key} here=${s === step} />`)}
    </ol>
  </header>`;
}

/** @param {{ on: string, here: boolean }} props */
function Notch({ on, here }) {
  return html`<li class=${(tick(on).value ? 'done' : '') + (here ? ' here' : '')}></li>`;
}

/** The clock against the next course. */
function Against() {
  const text = useComputed(() => {
    const t = minute.value;
    const next = (dinner.value?.courses ?? []).find((c) => moment(c.at) > t);
    const at = next ? moment(next.at) : moment(serve.value);
    const gone = !at
      ? ''
      : at > t
        ? at - t < 36 * 3600_000
          ? ' in ' + span(at - t)
          : ''
        : ' served';
    return {
      now: clock(t),
      next: at ? (next?.name ?? 'Service') + ' ' + hour(next?.at ?? serve.value) + gone : '',
    };
  });
  return html`<p class="against">
    <time>${text.value.now}</time>
    ${elsewhere.value ? html`<small> the kitchen's</small>` : ''} <span>${text.value.next}</span>
  </p>`;
}
