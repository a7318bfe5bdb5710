// @ts-check
/**
 * What follows when a batch gave less or more than planned.
 * @module
 */
import { html, useSignal } from './html.js';
import { emit } from './events.js';
import { now } from './clock.js';
import { covers } from './state.js';

/** @param {import('./engine.d.ts').Means['choices'][number]} c */
const take = (c) =>
  emit(c.kind, c.on, {
    ...(c.done ? { done: true } : {}),
    ...(c.number ? { number: c.number } : {}),
    ...(c.amount ? { amount: c.amount } : {}),
    ...(c.kind === 'measure' ? { start: now() } : {}),
  });

/**
 * What a weighed or short card means, and the ways out.
 * @param {{ means: import('./engine.d.ts').Means }} props
 */
export function Means({ means: m }) {
  const asked = useSignal(0); // the covers that the whole dinner would be cut to, until that is answered
  return html`<section class="means" id="means" data-short=${m.short} aria-label="What it means">
    ${m.doubt ? html`<p class="trouble" role="alert" id="doubt">${m.doubt}.</p>` : null}
    ${
      m.short
        ? html`
            <p>
              <b id="short">${m.short} short</b>: ${m.made} where ${m.need} is wanted. ${
                'Enough for ' + m.covers
              }.
            </p>
            <ul>
              ${m.gets.map(
                (g) => html`<li>${g.to}: <b class="amount">${g.now}</b> of ${g.planned}</li>`,
              )}
            </ul>
            <div class="tools">
              ${m.choices.map(
                (c) =>
                  html`<button
                    type="button"
                    data-choice=${c.kind}
                    onClick=${() => {
                      if (c.kind === 'covers') asked.value = c.number ?? 0;
                      else take(c);
                    }}
                  >
                    ${c.text}
                  </button>`,
              )}
            </div>
            ${
              asked.value
                ? html`<div id="all-covers" role="alert">
                    <p>
                      That makes the <b>whole dinner</b> ${asked.value} covers in place of ${covers.value}:
                      every card that is not begun, the order list, the plan and the pass follow, on
                      every phone.
                    </p>
                    <div class="tools">
                      <button
                        type="button"
                        id="covers-yes"
                        onClick=${() => {
                          const c = m.choices.find((x) => x.kind === 'covers');
                          asked.value = 0;
                          if (c) take(c);
                        }}
                      >
                        Make it ${asked.value} covers
                      </button>
                      <button
                        type="button"
                        id="covers-no"
                        onClick=${() => {
                          asked.value = 0;
                        }}
                      >
                        Keep ${covers.value}
                      </button>
                    </div>
                  </div>`
                : null
            }
          `
        : m.spare
          ? html`<p class="soft" id="spare">${m.spare} is left over.</p>`
          : null
    }
  </section>`;
}
