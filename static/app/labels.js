// @ts-check
/**
 * Labels for what was made: what, when, use by, allergens, and what nobody has assessed. To print.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { call, engine } from './ask.js';
import { now } from './clock.js';
import { folded, from, dinnerID } from './state.js';
import { Top } from './parts.js';
import { DinnerHead } from './dinner.js';
import { Strip } from './strip.js';
import { offset } from './probe.js';

/** @typedef {import('./engine.d.ts').Label} LabelView */

const labels = signal(
  /** @type {{ dinner: string, view: import('./engine.d.ts').LabelsView } | null} */ (null),
);
const trouble = signal('');
/** Which labels: of what is made already, or all. */
const all = signal(false);

/** The labels' screen. */
export function Labels() {
  const id = dinnerID.value,
    turn = folded.value,
    ready = engine.value === 'ready' && from.value === 'engine';
  useEffect(() => {
    if (!id || !ready) return;
    call('labels', { dinner: id, now: now(), offset: offset() }).then(
      (view) => {
        labels.value = { dinner: id, view };
        trouble.value = '';
      },
      (err) => {
        trouble.value = err.message;
      },
    );
  }, [id, turn, ready]);
  const v = labels.value?.dinner === id ? labels.value.view : null;
  const done = v?.labels.filter((l) => l.done) ?? [];
  const shown = all.value || done.length === 0 ? (v?.labels ?? []) : done;
  return html`
    <${Top} at="home" />
    <main id="labels">
      <${DinnerHead} at="labels" />
      ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
      ${
        !v
          ? html`<p class="wait">Writing labels …</p>`
          : html`
              <div class="tools">
                <button type="button" id="print" onClick=${() => print()}>Print</button>
                ${
                  done.length
                    ? html`<button
                        type="button"
                        class="quiet"
                        id="labels-all"
                        aria-pressed=${all.value ? 'true' : 'false'}
                        onClick=${() => {
                          all.value = !all.value;
                        }}
                      >
                        ${all.value ? 'Only what is made' : 'Also what is not made yet'}
                      </button>`
                    : null
                }
              </div>
              ${
                done.length
                  ? null
                  : html`<p class="soft">Nothing is made yet: these have room for the date.</p>`
              }
              <div class="labels">${shown.map((l) => html`<${Label} l=${l} />`)}</div>
              <p class="small">${v.defer}</p>
            `
      }
    </main>
    <${Strip} />
  `;
}

/** @param {{ l: LabelView }} props */
function Label({ l }) {
  return html`<section class="label" data-label=${l.key}>
    <h2>${l.name} <small>${l.amount}</small></h2>
    <p>Made <b>${l.made || '____________'}</b>${l.by ? html` <small>${l.by}</small>` : ''}</p>
    <p class="use">
      Use ${l.use ? html`<b>${l.made ? 'by ' : ''}${l.use}</b>` : html`by <b>____________</b>`}
      <small>${l.basis}</small>
    </p>
    ${
      l.container || l.words
        ? html`<p>${[l.container, l.words].filter(Boolean).join('. ')}</p>`
        : null
    }
    ${l.keeps.length ? html`<p class="small">The card: ${l.keeps.join(', ')}</p>` : null}
    <p>
      ${
        l.carries.length
          ? html`Contains <b>${l.carries.join(', ')}</b>`
          : html`None found ${l.list}`
      }
      ${l.may.length ? html`; may contain ${l.may.join(', ')}` : ''}
    </p>
    ${l.notAssessed.length ? html`<p><b>Not assessed:</b> ${l.notAssessed.join(', ')}</p>` : null}
    ${
      l.without.length
        ? html`<p class="small">Its author answers for: without ${l.without.join('; ')}</p>`
        : null
    }
  </section>`;
}
