// @ts-check
/**
 * The allergen sheet of a dinner, plate by plate, to print: with what the plates consist of once that
 * was asked for, and what they cost where the kitchen has prices.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { call, engine } from './ask.js';
import { composed, composeTrouble, compose } from './composition.js';
import { Cost } from './cost.js';
import { from } from './state.js';
import { lazy } from './lazy.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */
/** @typedef {import('./engine.d.ts').NutritionView} NutritionView */
/** @typedef {import('./engine.d.ts').SheetPlate} SheetPlate */

const Nutrition = lazy(() => import('./nutrition.js').then((m) => m.Nutrition));

/** What the plates of a dinner consist of, by course and plate, null until asked for. */
const known = signal(/** @type {{ d: DinnerView, plates: SheetPlate[] } | null} */ (null));
/** Whether it was asked for. */
const wanted = signal(false);

/** The sheet. @param {{ d: DinnerView }} props */
export function Sheet({ d }) {
  const ready = engine.value === 'ready' && from.value === 'engine' && composed.value;
  useEffect(() => {
    if (!wanted.value || !ready) return;
    call('sheet', { dinner: d.dinner }).then(
      (v) => {
        known.value = { d, plates: v.plates };
      },
      () => {}, // the dinner is open no more
    );
  }, [d, ready, wanted.value]);
  const plates = known.value?.d === d ? known.value.plates : [];
  return html`<section id="sheet" class="sheet">
    <h2>Allergens, plate by plate</h2>
    <p class="tools">
      <button type="button" id="print" onClick=${() => print()}>Print</button>
      ${
        wanted.value
          ? null
          : html`<button
              type="button"
              id="with-nutrition"
              onClick=${() => {
                wanted.value = true;
                compose();
              }}
            >
              With nutrition
            </button>`
      }
    </p>
    ${
      wanted.value && !composed.value && composeTrouble.value
        ? html`<p class="trouble" role="alert">${composeTrouble.value}</p>`
        : null
    }
    ${d.sheet.map(
      (s) => html`<${Plate}
        s=${s}
        nutrition=${plates.find(
          (p) => p.allergens.plate === s.plate && p.allergens.course === s.course,
        )?.nutrition}
        cost=${costOf(d, s)}
      />`,
    )}
  </section>`;
}

/**
 * What one plate costs, null where the kitchen has no prices.
 * @param {DinnerView} d @param {import('./engine.d.ts').PlateSheet} s
 */
const costOf = (d, s) =>
  d.courses.find((c) => c.name === s.course)?.plates.find((p) => p.name === s.plate)?.cost ?? null;

/**
 * @param {{
 *   s: import('./engine.d.ts').PlateSheet, nutrition?: NutritionView | null,
 *   cost: import('./engine.d.ts').CostView | null,
 * }} props
 */
function Plate({ s, nutrition, cost }) {
  return html`<section class="plate-sheet" data-plate=${s.plate}>
    <h3>${s.plate}${s.for ? html`<small> ${s.for}</small>` : ''}<small>${s.course}</small></h3>
    <${Listed} name="EU, of fourteen" of=${s.eu} />
    <${Listed} name="US, of nine" of=${s.us} />
    ${s.notAssessed.length ? html`<p><b>Not assessed:</b> ${s.notAssessed.join('; ')}</p>` : null}
    ${
      s.without.length
        ? html`<p>Answered for by the card's author: without ${s.without.join('; ')}</p>`
        : null
    }
    ${cost ? html`<${Cost} of=${cost} name="A plate" />` : null}
    ${nutrition ? html`<${Nutrition} of=${nutrition} />` : null}
  </section>`;
}

/**
 * What was found of one list.
 * @param {{ name: string, of: import('./engine.d.ts').Allergen[] }} props
 */
function Listed({ name, of }) {
  if (of.length === 0) return html`<p class="soft">${name}: none found.</p>`;
  return html`
    <p>${name}:</p>
    <ul>
      ${of.map(
        (a) =>
          html`<li>
            <b>${a.certainty === 'may' ? 'May contain: ' : ''}${a.name}</b>, in ${a.via.join('; ')}
            ${a.certainty === 'usually' || a.certainty === 'probably' ? ` (${a.certainty})` : ''}
          </li>`,
      )}
    </ul>
  `;
}
