// @ts-check
/**
 * How a pot cools, as the cook says it.
 * @module
 */
import { html, useMemo, signal } from './html.js';
import { emit } from './events.js';

/** @typedef {import('./engine.d.ts').WatchView} WatchView */

/** How it cools, in a cook's words. @param {{ v: WatchView, on: string }} props */
export function Vessel({ v, on }) {
  // A reading that comes meanwhile draws this anew; what is typed stays.
  const typed = useMemo(() => signal(/** @type {string | null} */ (null)), [on]);
  const say = (/** @type {any} */ e) => {
    e.preventDefault();
    const text = e.target.elements.vessel.value.trim();
    typed.value = null;
    if (text) emit('note', on, { text: 'cooling: ' + text });
  };
  return html`<form onSubmit=${say} id="vessel">
    <label>
      How it cools${v.said ? '' : ' (assumed: tap to correct)'}
      <input
        name="vessel"
        id="vessel-text"
        value=${typed.value ?? v.vessel}
        onInput=${(/** @type {any} */ e) => {
          typed.value = e.target.value;
        }}
        autocomplete="off"
      />
    </label>
    <p class="small">
      Like: 4 kg, stock, thin, 12 cm deep, 30 cm across, in an ice bath. Or 53 × 33 cm for a tray.
    </p>
    <button type="submit" id="vessel-save">Forecast with that</button>
  </form>`;
}
