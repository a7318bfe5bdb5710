// @ts-check
/**
 * One step of cook mode: what to do, its amounts, its sign of done, its timer, its tools.
 * @module
 */
import { About } from './about.js';
import { html, signal, useComputed } from './html.js';
import { second } from './clock.js';
import { dinnerID, tick, tickedAt, timers } from './state.js';
import { startTimer, hush } from './timers.js';
import { entry, Written } from './entries.js';
import { Watch } from './probe.js';
import { Left, opened } from './strip.js';
import { nowMinute, plan } from './plan.js';
import { Then } from './then.js';
import { settings } from './settings.js';
import { canSpeak, mute, speak, speaking } from './speak.js';
import { clock, hour } from './words.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */
/** @typedef {import('./engine.d.ts').CardView} CardView */

/**
 * What is read aloud: what to do, how much, and the sign that it is done.
 * @param {StepView} step
 */
const aloud = (step) =>
  [
    step.runs.map((r) => r.text).join(''),
    step.uses.map((u) => u.amount + ' ' + u.name).join(', '),
    step.until ? 'Done when: ' + step.until : '',
    step.cautions.join('. '),
  ]
    .filter(Boolean)
    .join('. ');

/** When this step should have begun, if that is past. @param {{ on: string }} props */
function Due({ on }) {
  const due = useComputed(() => {
    const v = plan.value,
      t = v?.tasks.find((x) => x.key === on);
    if (!v?.under || !t || t.held || tick(on).value || timers.value[on]) return null;
    const late = t.latest < nowMinute.value;
    if (!late && t.start <= nowMinute.value) return null;
    return { late, from: hour(t.from) };
  });
  if (!due.value) return null;
  const { late, from } = due.value;
  return html` <b class=${late ? 'late' : 'due'}>
      ${late ? 'late: by ' + from + ' at the plan' : 'from ' + from}
    </b>
  `;
}

/** Key of the step being put off, "" for none. */
export const putOff = signal('');

/** @param {{ step: StepView, card: CardView }} props */
export function Step({ step, card }) {
  const done = tick(step.key).value;
  return html`<article aria-live="polite" aria-atomic="false">
    <p class="number">
      Step ${step.number}${step.serve ? ', at the pass' : ''}
      <${Due} on=${step.key} />
      ${done ? html` <span class="ticked">done ${clock(tickedAt(step.key))}</span>` : ''}
    </p>
    <h1 class="say" id="say">
      ${step.runs.map((run) => (run.strong || run.item ? html`<b>${run.text}</b>` : run.text))}
    </h1>
    ${
      step.uses.length
        ? html`<ul class="amounts" id="amounts">
            ${step.uses.map(
              (u) => html`<li>
                <b class="amount">${u.amount}</b>
                <span class="name">
                  ${
                    u.card
                      ? u.name
                      : html`<${About} of=${{ name: u.name, dinner: dinnerID.value }}>${u.name}<//>`
                  }
                  ${u.prep ? html`<small>${u.prep}</small>` : ''}
                  ${u.aside ? html`<small>${u.aside}</small>` : ''}
                </span>
              </li>`,
            )}
          </ul>`
        : null
    }
    ${
      step.until
        ? html`<p class="until" id="until"><span class="tag">Done when</span> ${step.until}</p>`
        : null
    }
    <${Watch} step=${step} />
    ${step.cautions.map((c) => html`<p class="caution">${c}</p>`)}
    <div class="timeheat">
      ${step.heat ? html`<p class="heat" id="heat">${step.heat}</p>` : null}
      ${step.loads ? html`<p>${step.loads}</p>` : null}
      ${step.hands ? html`<p><span class="tag">Hands</span> ${step.hands}</p>` : null}
      ${step.wait ? html`<p><span class="tag">Wait</span> ${step.wait}</p>` : null}
      ${step.facts.map((f) => html`<p><span class="tag">${f.word}</span> ${f.value}</p>`)}
      ${step.saves.map((s) => html`<p><span class="tag">Save</span> ${s}</p>`)}
    </div>
    ${
      step.faults.length
        ? html`<details class="why" id="faults" key=${step.key}>
            <summary>When it goes wrong</summary>
            <ul>${step.faults.map((f) => html`<li><b>${f.words}</b> ${f.rescue}</li>`)}</ul>
          </details>`
        : null
    }
    ${step.waitLow ? html`<${StepTimer} step=${step} />` : null}
    <${Written} on=${step.key} />
    <div class="tools">
      ${
        step.weigh
          ? html`<button
              type="button"
              id="weigh"
              onClick=${() => {
                entry.value = {
                  what: 'weigh',
                  on: step.key,
                  unit: step.weigh,
                  title: card.title + ': what does it weigh?',
                };
              }}
            >
              Weigh
            </button>`
          : null
      }
      <button
        type="button"
        id="probe"
        class=${step.probe ? '' : 'quiet'}
        onClick=${() => {
          entry.value = { what: 'probe', on: step.key, title: 'Core temperature' };
        }}
      >
        Temperature
      </button>
      <button
        type="button"
        id="note"
        class="quiet"
        onClick=${() => {
          entry.value = { what: 'note', on: step.key, title: 'Note on this step' };
        }}
      >
        Note
      </button>
      ${
        canSpeak()
          ? html`<button
              type="button"
              id="aloud"
              class="quiet"
              aria-pressed=${speaking.value}
              onClick=${() => speak(aloud(step))}
            >
              ${speaking.value ? 'Stop reading' : 'Read aloud'}
            </button>`
          : null
      }
      ${
        done
          ? null
          : html`<button
              type="button"
              id="not-now"
              class="quiet"
              onClick=${() => {
                putOff.value = step.key;
              }}
            >
              Not now, or longer
            </button>`
      }
      ${
        plan.value && !plan.value.blocked.length
          ? html`<button
              type="button"
              id="order-by"
              class="quiet"
              aria-pressed=${settings.order.value === 'card'}
              onClick=${() => {
                settings.order.value = settings.order.value === 'card' ? 'dinner' : 'card';
              }}
            >
              ${
                settings.order.value === 'card'
                  ? 'Follow the whole dinner'
                  : 'Follow this card only'
              }
            </button>`
          : null
      }
    </div>
    ${mute.value ? html`<p class="small" id="mute" role="status">${mute.value}</p>` : null}
    <${Then} but=${step.key} />
  </article>`;
}

/** The step's own timer: a start, or the time left. @param {{ step: StepView }} props */
function StepTimer({ step }) {
  const t = timers.value[step.key];
  const late = useComputed(() => !!t && second.value >= t.end);
  if (!t) {
    return html`<button
      type="button"
      class="wide timer-start"
      id="timer-start"
      data-seconds=${step.waitLow}
      onClick=${() => startTimer(step.key, step.waitLow)}
    >
      Start ${step.atLeast ? 'the least time: ' : ''}
      <b>${step.timer}</b>
    </button>`;
  }
  return html`<button
    type="button"
    class=${'wide timer-on' + (late.value ? ' late' : '')}
    id="timer-on"
    data-end=${t.end}
    onClick=${() => {
      hush(step.key);
      opened.value = step.key;
    }}
  >
    <${Left} start=${t.start} end=${t.end} />
    <span>
      ${late.value ? (step.atLeast ? 'have a look' : 'time is up') : 'ends ' + clock(t.end)}
    </span>
  </button>`;
}
