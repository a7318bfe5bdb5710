// @ts-check
/**
 * What undo takes back, in words, and the change of the dinner that was just made with its undo
 * beside it.
 * @module
 */
import { html } from './html.js';
import { chosen, emit } from './events.js';
import { dinner, stepAt } from './state.js';
import { route, to } from './router.js';
import { hour } from './words.js';

/** @typedef {import('./engine.d.ts').Event} Event */

/** @type {Record<string, string>} */
const words = {
  tick: 'tick',
  start: 'start',
  finish: 'end',
  timer: 'timer',
  covers: 'covers',
  guests: 'guests',
  serve: 'serving time',
  way: 'way',
  leave: 'left out',
  plate: 'other plate',
  note: 'note',
  measure: 'weight',
  temperature: 'reading',
  delay: 'delay',
  plan: 'plan',
  portion: 'portions',
  again: 'made again',
  have: 'in the house',
  shelve: 'list of dinners',
};

/** The title of the card that a key is of; "" for none. @param {string} on */
export const titleOf = (on) =>
  dinner.value?.cards.find((c) => c.id === on.split(/[#/]/)[0])?.title ?? '';

/** "tick, step 3": an event in a few words. @param {Event} ev */
export function named(ev) {
  const step = stepAt(ev.on ?? '');
  return (words[ev.kind] ?? ev.kind) + (step ? ', step ' + step.number : '');
}

/** What a change of the dinner made of it. @param {Event} ev */
function made(ev) {
  switch (ev.kind) {
    case 'covers':
      return `The whole dinner is for ${ev.number} covers now.`;
    case 'serve':
      return `Served at ${hour(ev.text ?? '')} now.`;
    case 'plan':
      return 'Every phone goes by this plan now.';
  }
  const of = titleOf(ev.on ?? '');
  return `Changed: ${named(ev)}${of ? ', ' + of : ''}.`;
}

/** The change just made, with its undo, for the screen on which it was made. */
export function Chosen() {
  const ev = chosen.value,
    id = route.value.id;
  if (!ev || ev.dinner !== id) return null;
  const close = () => {
    chosen.value = null;
  };
  return html`<section class="means" id="chosen" role="status">
    <p>${made(ev)}</p>
    <div class="tools">
      <button
        type="button"
        id="chosen-undo"
        onClick=${() => {
          close();
          emit('undo', '', { undo: ev.id }, ev.dinner);
        }}
      >
        Undo ${named(ev)}
      </button>
      <a class="button" href=${to.happened(id)} onClick=${close}>What happened</a>
      <button type="button" class="quiet" id="chosen-keep" onClick=${close}>Keep it</button>
    </div>
  </section>`;
}
