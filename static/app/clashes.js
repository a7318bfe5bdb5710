// @ts-check
/**
 * The plates that clash with what guests can't have: first the words that nobody understood, in red,
 * then what clashes, then what may, then, folded, what nobody has assessed. Each plate that clashes
 * offers the ways out that its cards and the menu have.
 * @module
 */
import { html } from './html.js';
import { emit, undo, undoable } from './events.js';
import { linesOf, rowsOf } from './guestrows.js';
import { helper } from './server.js';
import { clashKind, count } from './words.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */
/** @typedef {import('./engine.d.ts').ExclusionGroup} Group */
/** @typedef {import('./engine.d.ts').GroupClash} GroupClash */
/** @typedef {import('./engine.d.ts').WayOut} WayOut */

/** "2 covers without fish, gluten", "1 cover, vegan, not checked: nutz". @param {Group} g */
export const nameOf = (g) =>
  count(g.covers, 'cover') +
  g.without +
  (g.notChecked.length ? ', not checked: ' + g.notChecked.join(', ') : '');

/** All clashes of a dinner. @param {{ d: DinnerView }} props */
export function Clashes({ d }) {
  const sure = byPlate(d, 'sure'),
    may = byPlate(d, 'may'),
    unknown = byPlate(d, 'unknown');
  const items = unknown.reduce((n, p) => n + p.clashes.length, 0);
  return html`
    ${d.guests.map((g, i) => g.notRead.map((w) => html`<${NotRead} d=${d} group=${i} w=${w} />`))}
    ${unread(d).map(
      (line) => html`<p class="trouble" role="alert" data-clash="notChecked">
        <b>Not checked: ${line}.</b> The menu’s line could not be read.
      </p>`,
    )}
    ${
      sure.length
        ? html`<section id="clashes" aria-labelledby="clashes-h">
            <h2 id="clashes-h">Clashes</h2>
            <${Plates} of=${sure} kind="sure" />
          </section>`
        : null
    }
    <${Undo} />
    ${
      may.length
        ? html`<section id="may-contain" aria-labelledby="may-h">
            <h2 id="may-h">May contain it</h2>
            <${Plates} of=${may} kind="unsure" but=${sure} />
          </section>`
        : null
    }
    ${
      items
        ? html`<details id="not-assessed" class="ratios">
            <summary>Not assessed: ${count(items, 'item')}</summary>
            <${Plates} of=${unknown} kind="unsure" but=${[...sure, ...may]} />
          </details>`
        : null
    }
  `;
}

/** The lines of the menu that could not be read: no guest was checked against them. @param {DinnerView} d */
function unread(d) {
  const lines = d.guests.flatMap((g) =>
    g.clashes
      .filter((c) => c.notChecked && !g.notRead.some((w) => w.word === c.word))
      .map((c) => c.word),
  );
  return [...new Set(lines)];
}

/**
 * What clashes on one plate, for one group of guests.
 * @typedef {{ group: Group, plate: string, course: string, clashes: GroupClash[] }} OnPlate
 */

/**
 * The clashes of one kind, by group of guests and plate.
 * @param {DinnerView} d @param {string} kind @returns {OnPlate[]}
 */
function byPlate(d, kind) {
  /** @type {OnPlate[]} */
  const out = [];
  for (const group of d.guests) {
    for (const c of group.clashes.filter((x) => clashKind(x) === kind)) {
      let on = out.find((p) => p.group === group && p.plate === c.plate && p.course === c.course);
      if (!on) out.push((on = { group, plate: c.plate, course: c.course, clashes: [] }));
      on.clashes.push(c);
    }
  }
  return out;
}

/**
 * Plates with what clashes on them, and ways out of it; those in but have them already.
 * @param {{ of: OnPlate[], kind: string, but?: OnPlate[] }} props
 */
function Plates({ of, kind, but = [] }) {
  return html`<ul class="clashes">
    ${of.map((p) => {
      const told = but.some(
        (o) => o.group === p.group && o.plate === p.plate && o.course === p.course,
      );
      const out = told
        ? []
        : p.group.out.filter((w) => w.plate === p.plate && w.course === p.course);
      return html`<li class=${kind} data-plate=${p.plate}>
        <p><b>${p.plate}</b>, ${p.course} <span class="soft">· ${nameOf(p.group)}</span></p>
        <ul>${p.clashes.map((c) => html`<li>${c.via.slice(1).join(' › ') || c.via[0]}</li>`)}</ul>
        ${
          out.length && !helper.value
            ? html`<div class="ways-out">
                ${out.map(
                  (w) => html`<div>
                    <${Take} way=${w} />
                    ${w.then ? html`<small class="soft"> ${w.then}</small>` : ''}
                  </div>`,
                )}
              </div>`
            : null
        }
      </li>`;
    })}
  </ul>`;
}

/** The button that makes a change. @param {{ way: WayOut }} props */
export function Take({ way: w }) {
  return html`<button
    type="button"
    data-way-out=${w.kind}
    onClick=${() =>
      emit(w.kind, w.on, {
        ...(w.done ? { done: true } : {}),
        ...(w.number ? { number: w.number } : {}),
        ...(w.words ? { text: w.words } : {}),
      })}
  >
    ${w.text}
  </button>`;
}

/** What undo takes back here, by the kind of the event. */
const undone = /** @type {Record<string, string>} */ ({
  leave: 'leaving it off',
  way: 'the other way',
  plate: 'the other plate',
  guests: 'the change of guests',
});

/** Take the last change back, where it is one that is made here. */
function Undo() {
  const what = undone[undoable.value?.kind ?? ''];
  return what
    ? html`<p class="tools">
        <button type="button" id="undo-guests" onClick=${() => undo()}>Undo ${what}</button>
      </p>`
    : null;
}

/**
 * What of a word is not checked: all of it where nobody understood it.
 * @param {{ d: DinnerView, group: number, w: { typed: string, word: string, didYouMean: string } }} props
 */
function NotRead({ d, group, w }) {
  const use = async () => {
    const rows = rowsOf(
      d.guests.map((g, i) => ({
        ...g,
        notChecked: g.notChecked.map((x) => (i === group && x === w.typed ? w.didYouMean : x)),
      })),
    );
    emit('guests', '', { text: await linesOf(rows) });
  };
  return html`<div class="trouble asked" role="alert" data-clash="notChecked">
    <p><b>Not checked: ${w.word}.</b> ${w.didYouMean ? `Did you mean ${w.didYouMean}?` : ''}</p>
    ${
      w.didYouMean && !helper.value
        ? html`<button type="button" data-meant=${w.didYouMean} onClick=${use}>
            Yes, ${w.didYouMean}
          </button>`
        : null
    }
  </div>`;
}
