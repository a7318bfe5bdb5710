// @ts-check
/**
 * A figure that a cook types: the engine reads it. Where "1,620" can be 1620 or 1.62, both readings
 * are shown as buttons and the one that is tapped is taken.
 * @module
 */
import { html, useSignal } from './html.js';
import { call } from './ask.js';

/** @typedef {import('./engine.d.ts').FigureCall} FigureCall */
/** @typedef {import('./engine.d.ts').FigureReading} FigureReading */
/**
 * @typedef {object} Figure
 * @property {boolean} reading the engine is at it
 * @property {string} problem what is wrong, or the question
 * @property {boolean} failed the engine could not read anything
 * @property {FigureReading[]} readings two to choose from, else none
 * @property {(typed: FigureCall) => Promise<void>} read
 * @property {() => void} clear forget the problem: something else is typed
 * @property {(reading: FigureReading) => void} take
 */

const none = {
  reading: false,
  failed: false,
  problem: '',
  readings: /** @type {FigureReading[]} */ ([]),
};

/**
 * The state of one field with a figure.
 * @param {(reading: FigureReading) => void} take what to do with the figure once it is understood
 * @returns {Figure}
 */
export function useFigure(take) {
  const said = useSignal(none);
  const clear = () => {
    if (said.peek() !== none) said.value = none;
  };
  return {
    ...said.value,
    clear,
    take(reading) {
      clear();
      take(reading);
    },
    async read(typed) {
      said.value = { ...none, reading: true };
      try {
        const { readings, problem } = await call('figure', typed);
        if (readings.length === 1) this.take(readings[0]);
        else said.value = { ...none, problem, readings };
      } catch (err) {
        const why = err instanceof Error ? err.message : String(err);
        said.value = { ...none, failed: true, problem: 'Not read: ' + why };
      }
    },
  };
}

/** What is wrong with the figure, or both its readings. @param {{ figure: Figure }} props */
export function Asked({ figure }) {
  if (!figure.problem) return null;
  return html`<div class="trouble asked" role="alert">
    <p>${figure.problem}.</p>
    ${figure.readings.map(
      (r) => html`<button type="button" data-reading=${r.shown} onClick=${() => figure.take(r)}>
        ${r.shown}
      </button>`,
    )}
  </div>`;
}
