// @ts-check
/**
 * What a cook writes down at a step: a weight, a core temperature, a note. Each is a window with
 * one field.
 * @module
 */
import { html, signal, useEffect, useRef } from './html.js';
import { emit } from './events.js';
import { measures, notes, temps } from './state.js';
import { now, minute } from './clock.js';
import { Dialog } from './parts.js';
import { settings } from './settings.js';
import { when } from './words.js';

/**
 * @typedef {{
 *   what: 'weigh' | 'probe' | 'note', on: string, unit?: string, title: string,
 *   amend?: { event: string, at: number },
 * }} Entry
 */

/** The open window: what, on which key, in which unit. */
export const entry = signal(/** @type {Entry | null} */ (null));

const units = ['g', 'kg', 'ml', 'L', 'piece'];

/** Units as a scale's face has them; an event names them in full. @type {Record<string, string>} */
const short = { kilogram: 'kg', gram: 'g', litre: 'L', millilitre: 'ml', pound: 'lb', ounce: 'oz' };

/** The window that is open, if one is. */
export function EntryWindow() {
  const e = entry.value;
  const field = useRef(/** @type {any} */ (null));
  useEffect(() => {
    field.current?.focus();
  }, [e]);
  if (!e) return null;
  const close = () => {
    entry.value = null;
  };
  const say = (/** @type {SubmitEvent} */ ev) => {
    ev.preventDefault();
    const form = new FormData(/** @type {HTMLFormElement} */ (ev.target));
    const text = String(form.get('value') ?? '').trim();
    const figure = text.replace(',', '.');
    if (!text) return;
    if (e.what === 'note') emit('note', e.on, { text, start: now() });
    else if (!/^-?\d+(\.\d+)?$/.test(figure)) {
      field.current?.setCustomValidity('A figure, like 1.4');
      field.current?.reportValidity();
      return;
    } else if (e.what === 'weigh')
      emit('measure', e.on, {
        amount: { qty: figure, unit: String(form.get('unit')) },
        start: now(),
      });
    else {
      // the old one stays in the log, taken back
      if (e.amend) emit('undo', '', { undo: e.amend.event });
      const c =
        form.get('unit') === '°F'
          ? Math.round(((Number(figure) - 32) * 500) / 9) / 100
          : Number(figure);
      emit('temperature', e.on, { tempC: c, start: e.amend?.at ?? now() });
    }
    close();
  };
  const clear = () => field.current?.setCustomValidity('');
  const input =
    e.what === 'note'
      ? html`<label>
          Note
          <textarea ref=${field} id="entry-value" name="value" rows="4" maxlength="2000"></textarea>
        </label>`
      : html`<div class="row figures">
          <label>
            ${e.what === 'probe' ? 'Temperature' : 'Amount'}
            <input
              ref=${field}
              id="entry-value"
              name="value"
              inputmode="decimal"
              autocomplete="off"
              onInput=${clear}
            />
          </label>
          ${
            e.what === 'probe'
              ? html`<label>
                  In
                  <select id="entry-unit" name="unit">
                    ${['°C', '°F'].map(
                      (u) =>
                        html`<option
                          value=${u}
                          selected=${(u === '°F') === (settings.system.value === 'us')}
                        >
                          ${u}
                        </option>`,
                    )}
                  </select>
                </label>`
              : null
          }
          ${
            e.what === 'weigh'
              ? html`<label>
                  Unit
                  <select id="entry-unit" name="unit">
                    ${[...new Set([e.unit || 'kg', ...units])].map(
                      (u) =>
                        html`<option value=${u} selected=${u === (e.unit || 'kg')}>${u}</option>`,
                    )}
                  </select>
                </label>`
              : null
          }
        </div>`;
  return html`<${Dialog} id="entry" title=${e.title} close=${close}>
    <form onSubmit=${say}>
      ${input}
      <button type="submit" class="main wide" id="entry-save">Write it down</button>
    </form>
  <//>`;
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
          Weighed <b>${plain(x.amount.qty)} ${short[x.amount.unit ?? ''] ?? x.amount.unit}</b>
          ${at(x.at)}
        </li>`,
    )}
    ${t.map((x) => html`<li>Core <b>${x.c} °C</b>${at(x.at)}</li>`)}
    ${n.map((x) => html`<li>${x.text}${at(x.at)}</li>`)}
  </ul>`;
}

/** "7/5", exact, as a figure for the eye: 1.4. @param {string} q */
function plain(q) {
  const [a, b] = q.split('/').map(Number);
  return b ? String(Number((a / b).toPrecision(6))) : q;
}
