// @ts-check
/**
 * The state of a plan: what has moved, how sure it is, why there is none.
 * @module
 */
import { emit } from './events.js';
import { html } from './html.js';
import { taken } from './state.js';
import { deep, takePlan, workDeep, working } from './plan.js';
import { route } from './router.js';
import { helper } from './server.js';
import { count, hour } from './words.js';

/** @typedef {import('./engine.d.ts').Schedule} Schedule */
/** @typedef {import('./engine.d.ts').Deed} Deed */

/**
 * What differs from the plan that the cooks follow, and the button that takes it.
 * @param {{ v: Schedule }} props
 */
export function Moves({ v }) {
  const untaken = v.ways.filter((w) => !w.taken);
  const lateCourses = v.courses.filter((c) => c.late > 0);
  const none = !taken.value;
  if (!none && v.moves.length === 0 && untaken.length === 0 && lateCourses.length === 0)
    return null;
  return html`<section class="moves" id="moves" aria-label="What has moved">
    ${lateCourses.map(
      (c) =>
        html`<p class="late-course" role="alert">
          <b>${c.name} goes out at ${hour(c.wall)}</b>, ${c.late} min late.
        </p>`,
    )}
    ${
      v.moves.length
        ? html`
            <h2>${count(v.moves.length, 'step')} moved</h2>
            <ul class="plain">${v.moves.slice(0, 5).map((m) => html`<li>${m}</li>`)}</ul>
            ${
              v.moves.length > 5
                ? html`<details class="more">
                    <summary>and ${v.moves.length - 5} more</summary>
                    <ul class="plain">${v.moves.slice(5).map((m) => html`<li>${m}</li>`)}</ul>
                  </details>`
                : null
            }
          `
        : null
    }
    ${untaken.map((w) => html`<p>${w.title}: <b>${w.way}</b>. ${w.why}.</p>`)}
    ${
      helper.value
        ? html`<p class="small">The cook’s phone takes the plan for everybody.</p>`
        : none || v.moves.length || untaken.length
          ? html`
              <button type="button" class="main" id="take-plan" onClick=${takePlan}>
                ${none ? 'Use this plan' : 'Use the new plan'}
              </button>
              <p class="small">
                ${
                  none
                    ? 'All phones follow it and show changes.'
                    : 'Until then all phones follow the old one.'
                }
              </p>
            `
          : null
    }
  </section>`;
}

/** How sure the plan is. @param {{ v: Schedule }} props */
export function Sure({ v }) {
  return html`<section class="sure" aria-label="Chance of being on time">
    ${
      v.chances.length
        ? html`
            <h2>Chance of being on time</h2>
            <ul class="plain" id="chances">
              ${v.chances.map(
                (c) =>
                  html`<li>
                    ${c.course}: on time in <b>${c.percent}</b> of 100 evenings
                    ${c.late > 1 ? html`, at worst ${c.late} min late in 19 of 20` : ''}
                  </li>`,
              )}
            </ul>
            ${
              v.decide.length
                ? html`
                    <h3>Riskiest steps</h3>
                    <ul class="plain">
                      ${[...v.decide, ...v.collide].map((t) => html`<li>${t}</li>`)}
                    </ul>
                    ${v.slack ? html`<p>Most help: ${v.slack}.</p>` : null}
                  `
                : null
            }
            <p class="small">
              The plan played through 500 times, with steps as quick and as slow as they really may
              be.
            </p>
          `
        : html`<p class="tools">
            <button type="button" id="how-sure" disabled=${working.value} onClick=${workDeep}>
              How sure is it?
            </button>
          </p>`
    }
  </section>`;
}

/** What has an event of its own. @type {Record<string, (d: Deed) => void>} */
const OWN = {
  way: (d) => emit('way', d.card ?? '', { number: d.way }),
  covers: (d) => emit('covers', '', { number: d.count }),
  serve: (d) => emit('serve', '', { text: d.at }),
};

/** Carry a change out. @param {Deed[]} deeds */
function carryOut(deeds) {
  for (const d of deeds) OWN[d.do]?.(d);
  const rest = deeds.filter((d) => !OWN[d.do]);
  if (rest.length) emit('change', '', { do: rest });
}

/** Why there is no plan, and what fixes it. @param {{ v: Schedule }} props */
export function Blocked({ v }) {
  return html`<section class="blocked" aria-label="What is in the way">
    <h2>This won’t fit</h2>
    <ul class="plain" id="because">${v.blocked.map((b) => html`<li class="trouble">${b}</li>`)}</ul>
    ${
      v.changes.length
        ? html`
            <h2>Any one of these fixes it</h2>
            <ul class="plain" id="changes">
              ${v.changes.map(
                (c) =>
                  html`<li>
                    <b>${c.text}</b>: ${c.effect}
                    ${
                      helper.value
                        ? null
                        : html` <button type="button" onClick=${() => carryOut(c.do)}>Do it</button> `
                    }
                  </li>`,
              )}
            </ul>
          `
        : deep.value === route.value.id && !working.value
          ? html`<p>No single change that was tried fixes it.</p>`
          : html`<p class="tools">
              <button
                type="button"
                class="main"
                id="what-frees"
                disabled=${working.value}
                onClick=${workDeep}
              >
                ${working.value ? 'Trying …' : 'What would fix it?'}
              </button>
            </p>`
    }
  </section>`;
}
