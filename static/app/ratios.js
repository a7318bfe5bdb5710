// @ts-check
/**
 * A card's formula in ratios: every item beside those at 100 %.
 * @module
 */
import { html, signal } from './html.js';

/** The lines at 100 %, 1 + index; empty for those that the engine takes. */
export const hundred = signal(/** @type {number[]} */ ([]));

/** Every item beside those at 100 %. @param {{ card: import('./engine.d.ts').CardPage }} props */
export function Ratios({ card }) {
  const pick = (/** @type {number} */ item, /** @type {boolean} */ on) => {
    const now = card.items.filter((i) => i.hundred).map((i) => i.item);
    hundred.value = on ? [...now, item] : now.filter((i) => i !== item);
  };
  return html`<details class="ratios" id="ratios">
    <summary>Ratios</summary>
    <table>
      <thead><tr><th>100 %</th><th>Item</th><th>Amount</th><th>Ratio</th></tr></thead>
      <tbody>
        ${card.items.map(
          (i) => html`<tr>
            <td>
              <label class="touch">
                <input
                  type="checkbox"
                  data-hundred=${i.item}
                  checked=${i.hundred}
                  aria-label=${i.name + ' at 100 %'}
                  onChange=${(/** @type {any} */ e) => pick(i.item, e.target.checked)}
                />
              </label>
            </td>
            <td>${i.name}${i.basis ? html`<small> ${i.basis}</small>` : ''}</td>
            <td>${i.amount}</td>
            <td><b>${i.percent}</b></td>
          </tr>`,
        )}
      </tbody>
    </table>
    <p class="small">In all ${card.weighs}${card.yield ? html`; it makes ${card.yield}` : ''}.</p>
    ${
      card.asides.length
        ? html`<ul class="small" id="asides">${card.asides.map((a) => html`<li>${a}</li>`)}</ul>`
        : null
    }
  </details>`;
}
