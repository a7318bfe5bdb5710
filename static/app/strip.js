// @ts-check
/**
 * The strip of what runs with nobody at it, each with its time left, and the window that opens from
 * it.
 * @module
 */
import { html, signal, useComputed } from './html.js';
import { second } from './clock.js';
import { route, go, to } from './router.js';
import { dinnerID, stepAt } from './state.js';
import { hush, moreTime, ringing, running, stopTimer } from './timers.js';
import { notices } from './alarm.js';
import { Dialog } from './parts.js';
import { clock, left } from './words.js';

/** @typedef {import('./timers.js').Running} Running */

/** Key of the timer whose window is open. */
export const opened = signal('');

/**
 * Time left, as text that changes once a second and redraws nothing else. Never more than the
 * whole: the second on the screen is up to one behind the tap.
 * @param {{ start: number, end: number }} props
 */
export function Left({ start, end }) {
  const text = useComputed(() => left(Math.min(end - second.value, end - start)));
  return html`<span class="left">${text}</span>`;
}

/** @param {{ t: Running }} props */
function Chip({ t }) {
  const late = useComputed(() => second.value >= t.end);
  const loud = ringing.value.includes(t.key);
  return html`<button
    type="button"
    class=${'chip' + (late.value ? ' late' : '') + (loud ? ' loud' : '')}
    data-timer=${t.key}
    data-end=${t.end}
    data-late=${late.value ? '1' : '0'}
    onClick=${() => {
      hush(t.key);
      opened.value = t.key;
    }}
  >
    <span class="chip-name">${t.name} <small>step ${t.step}</small></span>
    <${Left} start=${t.start} end=${t.end} />
  </button>`;
}

/** The strip. It is not there when no timer runs. */
export function Strip() {
  const all = running.value;
  if (all.length === 0) return null;
  return html`<section id="strip" class="strip" aria-label="Running">
    ${all.map((t) => html`<${Chip} key=${t.key} t=${t} />`)}
  </section>`;
}

/** What to do with a running timer. */
export function TimerWindow() {
  const t = running.value.find((r) => r.key === opened.value);
  if (!t) return null;
  const close = () => {
    opened.value = '';
  };
  const at = stepAt(t.key)?.at;
  return html`<${Dialog} id="timer-window" title=${t.name + ', step ' + t.step} close=${close}>
    <p class="big-left"><${Left} start=${t.start} end=${t.end} /></p>
    <p>
      ${second.value >= t.end ? 'Ended' : 'Ends'} at <b>${clock(t.end)}</b>
      ${
        t.atLeast
          ? '. That is the least: look, then decide'
          : t.high > t.low
            ? ', and at the latest ' + clock(t.start + t.high * 1000)
            : ''
      }.
    </p>
    <div class="row">
      <button type="button" data-more="60" onClick=${() => moreTime(t, 60)}>+ 1 min</button>
      <button type="button" data-more="300" onClick=${() => moreTime(t, 300)}>+ 5 min</button>
      <button
        type="button"
        id="timer-stop"
        onClick=${() => {
          close();
          stopTimer(t.key);
        }}
      >
        Stop it
      </button>
    </div>
    ${
      at && route.value.step !== String(at.step)
        ? html`<button
            type="button"
            class="wide"
            id="timer-go"
            onClick=${() => {
              close();
              go(to.step(dinnerID.peek(), at.card, at.batch, at.step));
            }}
          >
            Go to the step
          </button>`
        : null
    }
    <p class="small">
      The end time is kept through lock, reload and a flat battery. It rings while this screen is
      on: a locked phone may stay silent
      ${
        notices() === 'granted'
          ? ', though a notice may come through'
          : notices() === 'denied'
            ? ', and notices are not allowed here'
            : ''
      }.
    </p>
  <//>`;
}
