// @ts-check
/**
 * What a cook writes down at a step: a weight, a core temperature, a note. Each is a window with
 * one field.
 * @module
 */
import { html, signal, useEffect, useRef } from './html.js';
import { emit } from './events.js';
import { Asked, useFigure } from './figure.js';
import { measures, notes, temps, written } from './state.js';
import { now, minute } from './clock.js';
import { Dialog } from './parts.js';
import { settings } from './settings.js';
import { when } from './words.js';

/** @typedef {import('./engine.d.ts').FigureReading} FigureReading */
/**
 * @typedef {{
 *   what: 'weigh' | 'probe' | 'note', on: string, unit?: string, title: string,
 *   suggested?: string, amend?: { event: string, at: number },
 * }} Entry
 */

/** The open window: what, on which key, in which unit. */
export const entry = signal(/** @type {Entry | null} */ (null));

/** The units that can be chosen for a weight, besides the one it is asked in. */
const units = ['g', 'kg', 'ml', 'L', 'piece'];

/** The window that is open, if one is. */
export function EntryWindow() {
  const e = entry.value;
  if (!e) return null;
  const close = () => {
    entry.value = null;
  };
  return html`<${Dialog} id="entry" title=${e.title} close=${close}>
    ${e.what === 'note' ? html`<${Note} e=${e} close=${close} />` : null}
    ${e.what === 'weigh' ? html`<${Weight} e=${e} close=${close} />` : null}
    ${e.what === 'probe' ? html`<${Temperature} e=${e} close=${close} />` : null}
  <//>`;
}

/** @typedef {{ e: Entry, close: () => void }} Part */

/** @param {Part} props */
function Note({ e, close }) {
  const say = (/** @type {any} */ ev) => {
    ev.preventDefault();
    const text = ev.target.elements.value.value.trim();
    if (!text) return;
    emit('note', e.on, { text, start: now() });
    close();
  };
  const field = useFocus(e);
  return html`<form onSubmit=${say}>
    ${
      e.suggested
        ? html`<button
            type="button"
            class="wide"
            id="entry-suggested"
            onClick=${() => {
              field.current.value = e.suggested;
            }}
          >
            The card: ${e.suggested}
          </button>`
        : null
    }
    <label>
      Note
      <textarea ref=${field} id="entry-value" name="value" rows="4" maxlength="2000"></textarea>
    </label>
    <button type="submit" class="main wide" id="entry-save">Save</button>
  </form>`;
}

/** @param {Part} props */
function Weight({ e, close }) {
  const first = e.unit || 'kg';
  return html`<${FigureForm}
    e=${e}
    close=${close}
    of="amount"
    label="Amount"
    among="Unit"
    units=${[...new Set([first, ...units])]}
    first=${first}
    take=${(/** @type {FigureReading} */ r) => {
      if (r.amount) emit('measure', e.on, { amount: r.amount, start: now() });
    }}
  />`;
}

/** @param {Part} props */
function Temperature({ e, close }) {
  const take = (/** @type {FigureReading} */ r) => {
    if (r.tempC === null) return;
    // the old one stays in the log, taken back
    if (e.amend) emit('undo', '', { undo: e.amend.event });
    emit('temperature', e.on, { tempC: r.tempC, start: e.amend?.at ?? now() });
  };
  return html`<${FigureForm}
    e=${e}
    close=${close}
    of="temperature"
    label="Temperature"
    among="In"
    units=${['°C', '°F']}
    first=${settings.system.value === 'us' ? '°F' : '°C'}
    take=${take}
  />`;
}

/**
 * A figure and its unit.
 * @param {Part & {
 *   of: string, label: string, among: string, units: string[], first: string,
 *   take: (r: FigureReading) => void,
 * }} props
 */
function FigureForm({ e, close, of, label, among, units, first, take }) {
  const typed = useRef({ text: '', unit: '' });
  const figure = useFigure((r) => {
    take(r);
    close();
  });
  const say = (/** @type {any} */ ev) => {
    ev.preventDefault();
    const { value, unit } = ev.target.elements;
    typed.current = { text: value.value.trim(), unit: unit.value };
    if (typed.current.text) figure.read({ of, ...typed.current });
  };
  const noteIt = () => {
    emit('note', e.on, { text: typed.current.text + ' ' + typed.current.unit, start: now() });
    close();
  };
  return html`<form onSubmit=${say}>
    <div class="row figures">
      <label>
        ${label}
        <input
          ref=${useFocus(e)}
          id="entry-value"
          name="value"
          inputmode="decimal"
          autocomplete="off"
          onInput=${figure.clear}
        />
      </label>
      <label>
        ${among}
        <select id="entry-unit" name="unit" onChange=${figure.clear}>
          ${units.map((u) => html`<option value=${u} selected=${u === first}>${u}</option>`)}
        </select>
      </label>
    </div>
    <${Asked} figure=${figure} />
    ${
      figure.failed
        ? html`<button type="button" class="wide" id="entry-note" onClick=${noteIt}>
            Save as a note
          </button>`
        : null
    }
    <button type="submit" class="main wide" id="entry-save" disabled=${figure.reading}>
      ${figure.reading ? 'Reading it …' : 'Save'}
    </button>
  </form>`;
}

/** The field to type in, once the window is open. @param {Entry} e */
function useFocus(e) {
  const field = useRef(/** @type {any} */ (null));
  useEffect(() => {
    field.current?.focus();
  }, [e]);
  return field;
}

/** What was written down on a key, newest last. @param {{ on: string }} props */
export function Written({ on }) {
  const m = measures.value[on] ?? [],
    t = temps.value[on] ?? [],
    n = notes.value.filter((x) => x.on === on);
  if (m.length + t.length + n.length === 0) return null;
  const at = (/** @type {number} */ ms) => html`<small> ${when(ms, minute.value)}</small>`;
  return html`<ul class="written" data-written=${on}>
    ${m.map(
      (x, i) =>
        html`<li class=${i < m.length - 1 ? 'old' : ''}>
          Weighed <b>${written.value[x.event] ?? '…'}</b>
          ${at(x.at)}
        </li>`,
    )}
    ${t.map((x) => html`<li>Core <b>${written.value[x.event] ?? '…'}</b>${at(x.at)}</li>`)}
    ${n.map((x) => html`<li>${x.text}${at(x.at)}</li>`)}
  </ul>`;
}
