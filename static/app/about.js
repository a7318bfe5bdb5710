// @ts-check
/**
 * A tap on an ingredient: what is known of it, from where, and what is assumed, in a window.
 * @module
 */
import { html, signal } from './html.js';
import { lazy } from './lazy.js';

/**
 * The ingredient asked about: its name, and the line of a card that it is on where that is known.
 * @typedef {{ name: string, dinner?: string, card?: string, item?: number }} Asking
 */

/** What the open window is about, null while there is none. */
export const asking = signal(/** @type {Asking | null} */ (null));

const Food = lazy(() => import('./food.js').then((m) => m.Food));

/** The window that is open, if one is. */
export function FoodWindow() {
  return asking.value ? html`<${Food} key=${asking.value.name} of=${asking.value} />` : null;
}

/**
 * The button of an ingredient. With words in it those are the button, else a mark.
 * @param {{ of: Asking, children?: any }} props
 */
export function About({ of, children }) {
  return html`<button
    type="button"
    class=${children ? 'about-words' : 'about'}
    data-about=${of.name}
    aria-label=${children ? null : 'About ' + of.name}
    aria-haspopup="dialog"
    onClick=${() => {
      asking.value = of;
    }}
  >
    ${children ?? html`<span aria-hidden="true">i</span>`}
  </button>`;
}
