// @ts-check
/**
 * The window that puts a step off, or makes it longer: two taps, and the plan moves.
 * @module
 */
import { html } from './html.js';
import { now } from './clock.js';
import { emit } from './events.js';
import { timers } from './state.js';
import { Dialog } from './parts.js';
import { putOff } from './steppanel.js';

/**
 * Not now, or it takes longer.
 * @param {{ onward: (from: string) => void }} props onward goes to what comes after a step
 */
export function PutOffWindow({ onward }) {
  const on = putOff.value;
  if (!on) return null;
  const close = () => {
    putOff.value = '';
  };
  const later = (/** @type {number} */ n) => {
    emit('delay', on, { number: n, done: true });
    close();
    onward(on);
  };
  const longer = (/** @type {number} */ n) => {
    if (!timers.peek()[on]) emit('start', on, { start: now() });
    emit('delay', on, { number: n });
    close();
  };
  const choices = (/** @type {(n: number) => void} */ fn, /** @type {string} */ id) =>
    html`<div class="row">
      ${[5, 10, 20, 30].map(
        (n) =>
          html`<button type="button" data-minutes=${n} id=${id + n} onClick=${() => fn(n)}>
            ${n} min
          </button>`,
      )}
    </div>`;
  return html`<${Dialog} id="put-off" title="Not now, or longer" close=${close}>
    <h3>Remind me in</h3>
    ${choices(later, 'later-')}
    <button
      type="button"
      class="wide"
      id="skip"
      onClick=${() => {
        close();
        onward(on);
      }}
    >
      Skip for now
    </button>
    <h3>It takes longer, by</h3>
    ${choices(longer, 'longer-')}
  <//>`;
}
