// @ts-check
/**
 * What follows when a batch gave less or more than planned.
 * @module
 */
import { html } from './html.js';
import { emit } from './events.js';
import { now } from './clock.js';

/**
 * What a weighed or short card means, and the ways out.
 * @param {{ means: import('./engine.d.ts').Means }} props
 */
export function Means({ means: m }) {
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
                    onClick=${() =>
                      emit(c.kind, c.on, {
                        ...(c.done ? { done: true } : {}),
                        ...(c.number ? { number: c.number } : {}),
                        ...(c.amount ? { amount: c.amount } : {}),
                        ...(c.kind === 'measure' ? { start: now() } : {}),
                      })}
                  >
                    ${c.text}
                  </button>`,
              )}
            </div>
          `
        : m.spare
          ? html`<p class="soft" id="spare">${m.spare} is left over.</p>`
          : null
    }
  </section>`;
}
