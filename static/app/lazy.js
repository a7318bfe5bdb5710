// @ts-check
/**
 * Parts of a screen that are seldom wanted: their modules are loaded when they are first shown, so
 * that a cold start does not wait for them. They are on the phone like all others.
 * @module
 */
import { html, signal } from './html.js';

/**
 * A component whose module is loaded when it is first shown. Nothing is shown until then.
 * @param {() => Promise<any>} load gives the component
 */
export function lazy(load) {
  const part = signal(/** @type {{ of: any } | null} */ (null));
  let asked = false;
  return (/** @type {any} */ props) => {
    if (part.value) return html`<${part.value.of} ...${props} />`;
    if (!asked) {
      asked = true;
      load().then(
        (of) => {
          part.value = { of };
        },
        () => {
          asked = false; // the next look tries again
        },
      );
    }
    return null;
  };
}
