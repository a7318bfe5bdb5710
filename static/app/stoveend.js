// @ts-check
/**
 * Cook mode after the last step of a card.
 * @module
 */
import { html } from './html.js';
import { dinner, tick } from './state.js';
import { route, to } from './router.js';
import { entry, Written } from './entries.js';

/** @typedef {import('./engine.d.ts').BatchView} BatchView */
/** @typedef {import('./engine.d.ts').CardView} CardView */

/** After the last step. @param {{ card: CardView, batch: BatchView }} props */
export function End({ card, batch }) {
  const r = route.value;
  const open = batch.steps.filter((s) => !tick(s.key).value);
  const cards = dinner.value?.cards ?? [];
  const next = cards.find(
    (c) => c !== card && c.batches.some((m) => m.steps.some((s) => !tick(s.key).value)),
  );
  const sibling = card.batches.findIndex(
    (m) => m !== batch && m.steps.some((s) => !tick(s.key).value),
  );
  return html`<article>
    <p class="number">${card.title}</p>
    <h1 class="say" id="say">
      ${
        open.length
          ? 'The last step, but ' +
            (open.length === 1 ? 'one' : open.length) +
            ' before it not ticked.'
          : batch.make + ' made.'
      }
    </h1>
    ${
      card.saves.length
        ? html`<p class="until"><span class="tag">Saved</span> ${card.saves.join('; ')}</p>`
        : null
    }
    ${
      card.keeps.length
        ? html`<p><span class="tag">Keeps</span> ${card.keeps.join(', ')}</p>`
        : null
    }
    ${
      card.goesInto.length
        ? html`<p><span class="tag">For</span> ${card.goesInto.join('; ')}</p>`
        : null
    }
    <div class="tools">
      <button
        type="button"
        id="weigh"
        onClick=${() => {
          entry.value = {
            what: 'weigh',
            on: batch.key,
            unit: batch.unit,
            title: card.title + ': what did it give?',
          };
        }}
      >
        Weigh the yield
      </button>
      <button
        type="button"
        id="note"
        class="quiet"
        onClick=${() => {
          entry.value = { what: 'note', on: batch.key, title: 'Note on ' + card.title };
        }}
      >
        Note
      </button>
    </div>
    <${Written} on=${batch.key} />
    ${
      sibling >= 0
        ? html`<a class="button wide" id="next-batch" href=${to.batch(r.id, card.id, sibling + 1)}>
            Next batch of it
          </a>`
        : null
    }
    ${
      next
        ? html`<a class="button wide" id="next-card" href=${to.batch(r.id, next.id)}>
            Next: ${next.title}
          </a>`
        : null
    }
  </article>`;
}
