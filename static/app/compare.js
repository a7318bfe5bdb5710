// @ts-check
/**
 * Recipes that the server has read: one is chosen, and its words and the card stand side by side.
 * What is proposed in the card is taken or left with a tap; what was not read stands in a list.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { library, saveFile } from './library.js';
import { fileName } from './newcard.js';
import { go, to } from './router.js';
import { count } from './words.js';

/** @typedef {{ text: string, plain?: string, fact?: boolean }} Line a fact is all proposal */
/** @typedef {{ title: string, lines: Line[], source: string[], notRead: string[], doubts: string[] }} Found */
/** @typedef {{ value: Found[], peek: () => Found[] }} Some */
/** @typedef {{ value: string }} Words */

/** The recipe that is shown. */
const shown = signal(/** @type {Found | null} */ (null));
/** The lines of its card whose proposal is left, by their place. */
const left = signal(/** @type {Set<number>} */ (new Set()));

/**
 * The recipes that were found.
 * @param {{ found: Some, said: Words, typed: Words }} props
 */
export function Compare({ found, said, typed }) {
  useEffect(() => {
    look(found.value.length === 1 ? found.value[0] : null);
  }, [found.value]);
  const of = shown.value;
  if (of && found.value.includes(of)) return One({ of, found, said, typed });
  return html`
    <h2>${count(found.value.length, 'recipe')}: choose one</h2>
    <ul class="menus" id="found-recipes">
      ${found.value.map(
        (f) => html`<li>
          <button type="button" class="wide" onClick=${() => look(f)}>${f.title}</button>
        </li>`,
      )}
    </ul>
    <button
      type="button"
      class="wide"
      id="other-recipe"
      onClick=${() => {
        found.value = [];
      }}
    >
      Paste another
    </button>
  `;
}

/** @param {Found | null} of */
function look(of) {
  left.value = new Set();
  shown.value = of;
}

/**
 * One recipe: its source and the card beside each other.
 * @param {{ of: Found, found: Some, said: Words, typed: Words }} props
 */
function One({ of, found, said, typed }) {
  return html`
    <div class="two" id="compare">
      <section aria-labelledby="source-h">
        <h2 id="source-h">The source</h2>
        <ul class="source" id="source">${of.source.map((s) => html`<li>${s}</li>`)}</ul>
      </section>
      <section aria-labelledby="made-h">
        <h2 id="made-h">The card</h2>
        <p class="soft">A tap leaves out a line that is proposed.</p>
        <ul class="source" id="card-lines">${of.lines.map((l, i) => CardLine(l, i))}</ul>
      </section>
    </div>
    ${
      of.doubts.length
        ? html`<h2>To look at</h2><ul id="doubts">${of.doubts.map((s) => html`<li>${s}</li>`)}</ul>`
        : null
    }
    <h2>Not read</h2>
    <ul id="not-read">
      ${
        of.notRead.length
          ? of.notRead.map((s) => html`<li>${s}</li>`)
          : html`<li class="soft">Nothing: all of it is in the card or in its notes.</li>`
      }
    </ul>
    <button
      type="button"
      class="main wide"
      id="save-brought"
      onClick=${async () => {
        try {
          const as = await keep(of);
          typed.value = '';
          found.value = found.peek().filter((f) => f !== of);
          go(to.card(as));
        } catch (err) {
          said.value = 'Not saved: ' + (err instanceof Error ? err.message : err);
        }
      }}
    >
      Save the card
    </button>
    <button
      type="button"
      class="wide"
      id="not-this"
      onClick=${() => {
        if (found.peek().length === 1) found.value = [];
        look(null);
      }}
    >
      Back
    </button>
  `;
}

/** A line of the card; one that is proposed can be left. @param {Line} l @param {number} i */
function CardLine(l, i) {
  if (!l.fact && !l.plain) return l.text ? html`<li>${l.text}</li>` : null;
  const taken = !left.value.has(i);
  return html`<li>
    <label class="proposal" data-fact=${l.fact ? '1' : ''}>
      <input
        type="checkbox"
        checked=${taken}
        onChange=${() => {
          const next = new Set(left.peek());
          if (!next.delete(i)) next.add(i);
          left.value = next;
        }}
      />
      <span class=${taken ? '' : 'left'}>${l.fact || taken ? l.text : l.plain}</span>
    </label>
  </li>`;
}

/** The card's text, with what was taken. @param {Found} of */
const textOf = (of) =>
  of.lines
    .flatMap((l, i) => (!left.peek().has(i) ? [l.text] : l.fact ? [] : [l.plain ?? l.text]))
    .join('\n');

/**
 * Save the card under a name that no other has.
 * @param {Found} of
 * @returns {Promise<string>} the name
 */
async function keep(of) {
  let as = fileName(of.title);
  for (let n = 2; library.peek()?.files.some((f) => f.name === as); n++)
    as = fileName(of.title + ' ' + n);
  await saveFile(as, '', textOf(of));
  return as;
}
