// @ts-check
/**
 * Who can't have what, as rows to fill in: for a new dinner, and for one that is under way when a
 * guest says so late.
 * @module
 */
import { html } from './html.js';
import { call } from './ask.js';
import { library } from './library.js';

/** @typedef {import('./engine.d.ts').GuestGroup} GuestGroup */
/** A row as it is typed. @typedef {{ covers: string, no: string, note: string }} Row */

/**
 * The groups as rows. Words that are not understood are in them too, so that they are asked again and not lost.
 * @param {GuestGroup[]} groups @returns {Row[]}
 */
export const rowsOf = (groups) =>
  groups.map((g) => ({
    covers: String(g.covers),
    no: [...g.exclude, ...g.notChecked].join(', '),
    note: g.note,
  }));

/**
 * The rows as the lines of a menu's guests, which is how an event says them. The engine writes them.
 * @param {Row[]} rows
 */
export const linesOf = async (rows) => (await call('guests', { rows })).text;

/** The rows. @param {{ rows: Row[], change: (rows: Row[]) => void }} props */
export function GuestRows({ rows, change }) {
  const set = (/** @type {number} */ i, /** @type {Partial<Row>} */ some) =>
    change(rows.map((r, k) => (k === i ? { ...r, ...some } : r)));
  const field = (
    /** @type {number} */ i,
    /** @type {keyof Row} */ name,
    /** @type {string} */ label,
    /** @type {any} */ more,
  ) => html`<label class=${'guest-' + name}>
    ${label}
    <input
      type="text"
      data-guest=${name + i}
      autocomplete="off"
      ...${more}
      value=${rows[i][name]}
      onInput=${(/** @type {any} */ e) => set(i, { [name]: e.target.value })}
    />
  </label>`;
  return html`<fieldset class="guest-rows">
    <legend>Guests who can’t have something</legend>
    ${rows.map(
      (_, i) => html`<div class="guest-row">
        ${field(i, 'covers', 'Covers', {
          inputmode: 'numeric',
          maxlength: 4,
          pattern: '[0-9]+',
          title: 'how many, like 2',
          required: true,
        })}
        ${field(i, 'no', 'Must avoid', { placeholder: 'fish, gluten', maxlength: 200 })}
        <label class="guest-pick">
          Pick
          <select
            data-guest=${'pick' + i}
            onChange=${(/** @type {any} */ e) => {
              const word = e.target.value;
              e.target.value = '';
              if (word) set(i, { no: [rows[i].no.trim(), word].filter(Boolean).join(', ') });
            }}
          >
            <option value="">allergen or diet</option>
            ${(library.value?.avoid ?? []).map((w) => html`<option value=${w}>${w}</option>`)}
          </select>
        </label>
        ${field(i, 'note', 'Note', { placeholder: 'sits by the door', maxlength: 100 })}
        <button
          type="button"
          data-remove=${i}
          aria-label=${'Remove: ' + (rows[i].no || 'the empty row')}
          onClick=${() => change(rows.filter((_, k) => k !== i))}
        >
          Remove
        </button>
      </div>`,
    )}
    <button
      type="button"
      id="add-guests"
      onClick=${() => change([...rows, { covers: '1', no: '', note: '' }])}
    >
      Add guests
    </button>
  </fieldset>`;
}
