// @ts-check
/**
 * A batch: what it goes into, its mise en place with scaled amounts, and its steps.
 * @module
 */
import { html, useDerived, useEffect } from './html.js';
import { emit } from './events.js';
import { dinner, tick } from './state.js';
import { route, to } from './router.js';
import { About } from './about.js';
import { Cost } from './cost.js';
import { Top, TickRow } from './parts.js';
import { following } from './otherpot.js';
import { entry, Written } from './entries.js';
import { Strip } from './strip.js';
import { Opening } from './dinner.js';
import { NotFound } from './lost.js';
import { Means } from './means.js';
import { Chosen } from './undone.js';

/** @typedef {import('./engine.d.ts').CardView} CardView */
/** @typedef {import('./engine.d.ts').BatchView} BatchView */
/** @typedef {import('./engine.d.ts').MiseView} MiseView */

/** The batch's screen. */
export function Batch() {
  const r = route.value;
  const d = dinner.value;
  const card = d?.cards.find((c) => c.id === r.card);
  const batch = card?.batches[r.batch - 1] ?? card?.batches[0];
  return html`
    <${Top} at="home" />
    <main id="batch" class="batch" data-card=${r.card} data-batch=${batch?.key ?? ''}>
      <p>
        <a class="up" id="to-dinner" href=${to.dinner(r.id)}>
          <span aria-hidden="true">‹</span> ${d?.title ?? 'Dinner'}
        </a>
      </p>
      ${
        !d
          ? html`<${Opening} />`
          : !card || !batch
            ? html`<${NotFound}
                what="This card is not in the dinner."
                why="It may have been taken out, or the address is mistyped."
                href=${to.dinner(r.id)}
                way="To the dinner"
              />`
            : html`<${Sheet} card=${card} batch=${batch} />`
      }
    </main>
    <${Strip} />
  `;
}

/**
 * The batch a weight is being entered for, and what it gave before: what the weight means is then
 * brought into sight.
 */
let weighing = { key: '', got: '' };

/** @param {{ card: CardView, batch: BatchView }} props */
function Sheet({ card, batch }) {
  const r = route.value;
  useEffect(() => {
    if (weighing.key !== batch.key || weighing.got === batch.got) return;
    weighing = { key: '', got: '' };
    (document.querySelector('#means') ?? document.querySelector('#got'))?.scrollIntoView({
      block: 'center',
    });
  }, [batch.key, batch.got]);
  return html`
    <h1>${card.title}</h1>
    <p class="makes" id="make">
      <b>${batch.make}</b>
      ${
        card.batches.length > 1
          ? html` <span class="soft">batch ${r.batch} of ${card.batches.length}</span>`
          : ''
      }
    </p>
    ${batch.cost ? html`<${Cost} of=${batch.cost} name="This batch" />` : null}
    ${batch.got ? html`<p>Yield <b id="got">${batch.got}</b>.</p>` : null}
    ${card.means ? html`<${Means} means=${card.means} />` : null}
    <${Chosen} />
    ${
      card.goesInto.length
        ? html`<p class="goesInto"><span class="tag">For</span> ${card.goesInto.join('; ')}</p>`
        : null
    }
    ${
      batch.tested
        ? html`<p class="goesInto"><span class="tag">Tested</span> ${batch.tested}</p>`
        : null
    }
    ${
      card.saves.length
        ? html`<p class="goesInto"><span class="tag">Saves</span> ${card.saves.join('; ')}</p>`
        : null
    }
    ${
      card.batches.length > 1
        ? html`<nav class="faces" aria-label="Batches">
            ${card.batches.map(
              (m, i) =>
                html`<a
                  href=${to.batch(r.id, card.id, i + 1)}
                  aria-current=${m === batch ? 'page' : null}
                >
                  ${m.make}
                </a>`,
            )}
          </nav>`
        : null
    }
    ${
      card.ways.length
        ? html`<fieldset class="ways">
            <legend>Way</legend>
            ${card.ways.map(
              (w, i) => html`<label>
                <input
                  type="radio"
                  name="way"
                  id=${'way-' + (i + 1)}
                  checked=${card.way === i + 1}
                  onChange=${() => emit('way', card.id, { number: i + 1 })}
                />
                <span>${w}</span>
              </label>`,
            )}
          </fieldset>`
        : null
    }
    <${Start} card=${card} batch=${batch} />
    <div class="two">
      <section aria-labelledby="mise-h">
        <h2 id="mise-h">Mise en place</h2>
        <ul class="mise" id="mise">
          ${groups(batch.mise).map(
            ([name, items]) => html`
              ${name ? html`<li class="group">${name}</li>` : null}
              ${items.map((m) => html`<${MiseLine} key=${m.key} m=${m} card=${card} />`)}
            `,
          )}
        </ul>
      </section>
      <section aria-labelledby="steps-h">
        <h2 id="steps-h">Steps</h2>
        <ol class="steps" id="steps">
          ${batch.steps.map(
            (s) => html`<${TickRow}
              key=${s.key}
              on=${s.key}
              label=${html`<span class="n">${s.number}</span>`}
            >
              <a
                class="step-line"
                href=${to.step(r.id, card.id, r.batch, s.at.step)}
                onClick=${() => (following.value = batch.key)}
              >
                ${s.runs.map((x) => x.text).join('')}
                <small>
                  ${[s.heat, s.hands && 'hands ' + s.hands, s.wait && 'wait ' + s.wait]
                    .filter(Boolean)
                    .join(' · ')}
                </small>
              </a>
            <//>`,
          )}
        </ol>
        <${Written} on=${batch.key} />
        <div class="tools">
          <button
            type="button"
            id="weigh-batch"
            onClick=${() => {
              weighing = { key: batch.key, got: batch.got };
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
          <a class="button quiet" id="to-card" href=${to.card(card.id + '.md')}>The card</a>
        </div>
      </section>
    </div>
  `;
}

/** Items by their group, in order. @param {MiseView[]} mise @returns {[string, MiseView[]][]} */
function groups(mise) {
  /** @type {[string, MiseView[]][]} */
  const out = [];
  for (const m of mise) {
    if (out.at(-1)?.[0] !== m.group) out.push([m.group, []]);
    out.at(-1)?.[1].push(m);
  }
  return out;
}

/** @param {{ m: MiseView, card: CardView }} props */
function MiseLine({ m, card }) {
  const name = html`
    <b class="amount">${m.amount}</b>
    <span class="name">
      ${m.name}
      ${m.prep ? html`<small>${m.prep}</small>` : ''}
      ${m.aside ? html`<small>${m.aside}</small>` : ''}
    </span>
  `;
  return html`<${TickRow} on=${m.key} label=${name} class=${m.left ? 'left-out' : ''}>
    ${
      m.card
        ? html`<a class="from" href=${to.batch(route.value.id, m.card)}>
            made here
            <span class="unseen">: ${m.name}</span>
          </a>`
        : null
    }
    ${
      m.optional
        ? html`<button
            type="button"
            class="from"
            data-leave=${m.item}
            aria-pressed=${m.left ? 'true' : 'false'}
            onClick=${() =>
              emit('leave', card.id + '/item/' + m.item, m.left ? {} : { done: true })}
          >
            ${m.left ? 'put back' : 'leave out'}
          </button>`
        : null
    }
    ${
      m.card
        ? null
        : html`<${About}
            of=${{ name: m.name, dinner: route.value.id, card: card.id, item: m.item }}
          />`
    }
  <//>`;
}

/**
 * The button that opens cook mode at the first step that is not done.
 * @param {{ card: CardView, batch: BatchView }} props
 */
function Start({ card, batch }) {
  const r = route.value;
  const next = useDerived(() => {
    const open = batch.steps.find((s) => !tick(s.key).value);
    return {
      step: open?.at.step ?? 0,
      number: open?.number ?? 0,
      begun: batch.steps.some((s) => tick(s.key).value),
    };
  }, [batch]);
  const n = next.value;
  if (batch.steps.length === 0) return html`<p class="soft">It has no steps.</p>`;
  if (!n.step)
    return html`<a class="button wide" id="start" href=${to.step(r.id, card.id, r.batch, 'end')}>
      All steps done
    </a>`;
  return html`<a
    class="button main wide"
    id="start"
    href=${to.step(r.id, card.id, r.batch, n.step)}
    onClick=${() => (following.value = batch.key)}
  >
    ${n.begun ? 'Go on at step ' + n.number : 'Cook'}
  </a>`;
}
