// @ts-check
/**
 * The last step on the screen, kept as it was drawn, for first.js to paint at the next cold start.
 * In localStorage: it can be read before anything else is loaded, and losing it costs half a
 * second.
 * @module
 */
import { effect } from './html.js';
import { dinner, last, tick, trouble } from './state.js';
import { route } from './router.js';

const KEY = 'hobside-glimpse';
const app = /** @type {HTMLElement} */ (document.getElementById('app'));

/** Whether first.js has painted one. */
export const painted = app.inert;

/** Wait, with a glimpse on the screen, until the app can show the same or better. */
export async function overtake() {
  if (!painted) return;
  await new Promise((resolve) => {
    const enough = setTimeout(resolve, 3000);
    const stop = effect(() => {
      if (!dinner.value && !trouble.value && route.value.at === 'step') return;
      clearTimeout(enough);
      resolve(undefined);
    });
    setTimeout(() => stop(), 3000);
  });
}

/**
 * Keep the screen whenever a step is drawn, once the cook has it and the phone has nothing else to
 * do.
 */
export function keepGlimpse() {
  let later = 0;
  effect(() => {
    const at = route.value.at;
    tick(last.value).value; // the notch of the step just done
    dinner.value;
    clearTimeout(later);
    later = setTimeout(() => {
      try {
        if (at !== 'step') localStorage.removeItem(KEY);
        else localStorage.setItem(KEY, JSON.stringify({ hash: location.hash, html: plain() }));
      } catch {
        /* no storage: the next cold start takes a little longer */
      }
    }, 250);
  });
}

/** The screen without what would be wrong later: clocks and times left. */
function plain() {
  const copy = /** @type {HTMLElement} */ (app.cloneNode(true));
  for (const clock of copy.querySelectorAll('.left, .against')) clock.textContent = '\u00a0';
  for (const dialog of copy.querySelectorAll('dialog')) dialog.remove();
  return copy.innerHTML;
}
