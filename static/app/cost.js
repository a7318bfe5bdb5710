// @ts-check
/**
 * What something costs by the kitchen's prices, with what has none.
 * @module
 */
import { html } from './html.js';

/** @param {{ of: import('./engine.d.ts').CostView, name: string }} props */
export function Cost({ of: c, name }) {
  return html`<div class="cost" data-cost=${c.sum}>
    <p>
      ${name} costs ${c.sum ? html`<b>${c.sum}</b>` : 'what nothing here has a price for'}
      ${c.each ? html`, <b>${c.each}</b> a ${c.of}` : ''}
      ${c.missing.length ? ' without what has no price: ' + c.missing.join(', ') : ''}.
    </p>
    ${c.assumed.length ? html`<p class="small">Assumed: ${c.assumed.join('; ')}.</p>` : null}
  </div>`;
}
