// @ts-check
/**
 * Cook mode: one step fills the screen. What to do, its amounts, its sign of done; then time and
 * heat; then what runs unattended; then the clock against the next course. Everything else is one
 * touch away.
 * @module
 */
import { html, signal, useComputed, useEffect, useLayoutEffect, useRef } from './html.js';
import { minute, second } from './clock.js';
import { emit, undo, undoable, unsaved } from './events.js';
import { dinner, serve, tick, tickedAt, timers, trouble } from './follow.js';
import { go, route, stepOf, to } from './router.js';
import { startTimer, ringing, hush } from './timers.js';
import { entry, Written } from './entries.js';
import { Watch } from './probe.js';
import { Left, Strip, opened } from './strip.js';
import { nextTask, nowMinute, plan } from './plan.js';
import { Then } from './planpage.js';
import { settings } from './settings.js';
import { canSpeak, mute, speak, speaking } from './speak.js';
import { Dialog } from './parts.js';
import { clock, hour, moment, span } from './words.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */
/** @typedef {import('./engine.d.ts').BatchView} BatchView */
/** @typedef {import('./engine.d.ts').CardView} CardView */

/** @param {StepView} s */
const place = (s) => stepOf(s.key)?.step ?? 0;

/** The batch and step of the address. */
function here() {
  const r = route.value;
  const card = dinner.value?.cards.find((c) => c.id === r.card);
  const batch = card?.batches[r.batch - 1];
  const index = batch ? batch.steps.findIndex((s) => String(place(s)) === r.step) : -1;
  return { r, card, batch, index, step: batch?.steps[index] };
}

/**
 * Done, and on to the next step that is not. A thumb that bounces does not tick the step it has not
 * seen.
 * @param {UIEvent} [e]
 */
function doneNext(e) {
  const { r, batch, step } = here();
  if (!batch || !step) return;
  const open = !tick(step.key).peek();
  if (open && e && e.detail > 1) return;
  if (open)
    emit('tick', step.key, { done: true }).catch(() =>
      go(to.step(r.id, r.card, r.batch, place(step))),
    ); // not kept: back to it, and the words say why
  onward(step.key);
}

/**
 * To what comes next: by the plan over the whole dinner, or along this card.
 * @param {string} from key
 */
function onward(from) {
  const { r, batch, index } = here();
  if (!batch) return;
  const by =
    settings.order.peek() === 'card' || plan.peek()?.blocked.length ? undefined : nextTask(from);
  const p = by && stepOf(by.key);
  if (
    p &&
    dinner
      .peek()
      ?.cards.some(
        (c) => c.id === p.card && c.batches[p.batch - 1]?.steps.some((s) => s.key === by.key),
      )
  ) {
    go(to.step(r.id, p.card, p.batch, p.step));
    return;
  }
  const next = [...batch.steps.slice(index + 1), ...batch.steps.slice(0, index)].find(
    (s) => !tick(s.key).peek(),
  );
  go(to.step(r.id, r.card, r.batch, next ? place(next) : 'end'));
}

function back() {
  const { r, batch, index } = here();
  if (!batch) return;
  const before = r.step === 'end' ? batch.steps.at(-1) : batch.steps[index - 1];
  go(before ? to.step(r.id, r.card, r.batch, place(before)) : to.batch(r.id, r.card, r.batch));
}

function takeBack() {
  const ev = undo();
  const at = ev?.kind === 'tick' && ev.on ? stepOf(ev.on) : null;
  if (ev && at) go(to.step(ev.dinner, at.card, at.batch, at.step)); // back to where it was ticked
}

/**
 * A wet thumb or an elbow anywhere in the lower half, for those who have set it so.
 * @param {MouseEvent} e
 */
function half(e) {
  const el = /** @type {HTMLElement} */ (e.target);
  if (
    settings.tap.peek() !== 'on' ||
    e.clientY < innerHeight / 2 ||
    el.closest('button, a, input, label, summary, dialog') ||
    String(getSelection())
  )
    return;
  doneNext(e);
}

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

/** @param {KeyboardEvent} e */
function keys(e) {
  const el = /** @type {HTMLElement} */ (e.target);
  if (
    e.defaultPrevented ||
    e.repeat ||
    e.ctrlKey ||
    e.metaKey ||
    e.altKey ||
    document.querySelector('dialog[open]') ||
    /^(INPUT|TEXTAREA|SELECT)$/.test(el.tagName)
  )
    return;
  const pressed = el.closest('button, a');
  if (e.key === ' ' && pressed) return; // its own press
  const act = {
    ' ': doneNext,
    PageDown: doneNext,
    ArrowRight: doneNext,
    PageUp: back,
    ArrowLeft: back,
    u: takeBack,
  }[e.key];
  if (!act) return;
  e.preventDefault();
  act(e);
}

/** The stove's screen. */
export function Stove() {
  const { r, card, batch, step } = here();
  useEffect(() => {
    addEventListener('keydown', keys);
    return () => removeEventListener('keydown', keys);
  }, []);
  const turned = useRef(false),
    scrolled = useRef(false);
  useLayoutEffect(() => {
    // in the frame that shows the step, never after a thumb or a Tab has moved on
    const panel = document.getElementById('panel');
    // only then: asking where it stands would lay the page out twice
    if (scrolled.current) panel?.scrollTo(0, 0);
    if (turned.current && document.activeElement === document.body)
      panel?.focus({ preventScroll: true }); // what had the focus went with its step
    turned.current = true;
  }, [r.step, r.card]);
  if (!dinner.value)
    return html`<main id="stove" class="stove">
      <p class="wait">${trouble.value || 'Opening the dinner …'}</p>
    </main>`;
  if (!card || !batch || (!step && r.step !== 'end')) {
    return html`<main id="stove" class="stove">
      <div class="panel" id="panel">
        <h1>This step is not in the dinner any more.</h1>
        <p><a class="button" href=${to.dinner(r.id)}>To the dinner</a></p>
      </div>
    </main>`;
  }
  return html`<main id="stove" class="stove" data-step=${step?.key ?? 'end'} data-card=${card.id}>
    <${Head} card=${card} batch=${batch} step=${step} />
    <div
      class="panel"
      id="panel"
      tabindex="-1"
      onClick=${half}
      onScroll=${(/** @type {any} */ e) => {
        scrolled.current = e.target.scrollTop > 0;
      }}
    >
      ${
        step
          ? html`<${Step} key=${step.key} step=${step} card=${card} />`
          : html`<${End} card=${card} batch=${batch} />`
      }
    </div>
    <${Strip} />
    <${Bar} step=${step} />
    <${PutOffWindow} />
  </main>`;
}

/** @param {{ card: CardView, batch: BatchView, step?: StepView }} props */
function Head({ card, batch, step }) {
  const r = route.value;
  const many = card.batches.length > 1 ? ', ' + r.batch + ' of ' + card.batches.length : '';
  return html`<header class="stove-top">
    <a id="to-batch" class="up" href=${to.batch(r.id, r.card, r.batch)}>
      <span aria-hidden="true">‹</span> ${card.title}${many}
    </a>
    <${Against} />
    <ol
      class="notches"
      aria-label=${
        step ? 'Step ' + (batch.steps.indexOf(step) + 1) + ' of ' + batch.steps.length : 'All steps'
      }
    >
      ${batch.steps.map((s) => html`<${Notch} key=${s.key} on=${s.key} here=${s === step} />`)}
    </ol>
  </header>`;
}

/** @param {{ on: string, here: boolean }} props */
function Notch({ on, here }) {
  return html`<li class=${(tick(on).value ? 'done' : '') + (here ? ' here' : '')}></li>`;
}

/** The clock against the next course. */
function Against() {
  const text = useComputed(() => {
    const t = minute.value;
    const next = (dinner.value?.courses ?? []).find((c) => moment(c.at) > t);
    const at = next ? moment(next.at) : moment(serve.value);
    const gone = !at
      ? ''
      : at > t
        ? at - t < 36 * 3600_000
          ? ' in ' + span(at - t)
          : ''
        : ' served';
    return {
      now: clock(t),
      next: at ? (next?.name ?? 'Service') + ' ' + hour(next?.at ?? serve.value) + gone : '',
    };
  });
  return html`<p class="against">
    <time>${text.value.now}</time> <span>${text.value.next}</span>
  </p>`;
}

/** When this step should have begun, if that is past. @param {{ on: string }} props */
function Due({ on }) {
  const text = useComputed(() => {
    const v = plan.value,
      t = v?.tasks.find((x) => x.key === on);
    if (!v?.under || !t || t.held || tick(on).value || timers.value[on]) return '';
    const now = nowMinute.value;
    return t.latest < now
      ? 'late: by ' + hour(t.from) + ' at the plan'
      : t.start > now
        ? 'from ' + hour(t.from)
        : '';
  });
  return text.value
    ? html` <b class=${text.value.startsWith('late') ? 'late' : 'due'}>${text.value}</b>`
    : null;
}

/** Key of the step being put off, "" for none. */
const putOff = signal('');

/** Not now, or it takes longer: two taps, and the plan moves. */
function PutOffWindow() {
  const on = putOff.value;
  if (!on) return null;
  const close = () => {
    putOff.value = '';
  };
  const later = (/** @type {number} */ n) => {
    emit('delay', on, { number: n, done: true });
    close();
    onward(on);
  };
  const longer = (/** @type {number} */ n) => {
    if (!timers.peek()[on]) emit('start', on, { start: Date.now() });
    emit('delay', on, { number: n });
    close();
  };
  const choices = (/** @type {(n: number) => void} */ fn, /** @type {string} */ id) =>
    html`<div class="row">
      ${[5, 10, 20, 30].map(
        (n) =>
          html`<button type="button" data-minutes=${n} id=${id + n} onClick=${() => fn(n)}>
            ${n} min
          </button>`,
      )}
    </div>`;
  return html`<${Dialog} id="put-off" title="Not now, or longer" close=${close}>
    <h3>Not now. Again in</h3>
    ${choices(later, 'later-')}
    <button
      type="button"
      class="wide"
      id="skip"
      onClick=${() => {
        close();
        onward(on);
      }}
    >
      Pass over it; it stays open
    </button>
    <h3>It takes longer, by</h3>
    ${choices(longer, 'longer-')}
  <//>`;
}

/** @param {{ step: StepView, card: CardView }} props */
function Step({ step, card }) {
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
                  ${u.name}
                  ${u.prep ? html`<small>${u.prep}</small>` : ''}
                  ${u.aside ? html`<small class="aside">${u.aside}</small>` : ''}
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
      <b>${span(step.waitLow * 1000)}</b>
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

/** After the last step. @param {{ card: CardView, batch: BatchView }} props */
function End({ card, batch }) {
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
            unit: batch.make.split(' ').at(-1),
            title: card.title + ': what did it give?',
          };
        }}
      >
        Weigh what it gave
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

/** The bottom bar: what wet hands touch. @param {{ step?: StepView }} props */
function Bar({ step }) {
  const done = step ? tick(step.key).value : false;
  const r = route.value;
  return html`<footer class="bar">
    ${unsaved.value ? html`<p class="unsaved" role="alert">${unsaved.value}</p>` : null}
    <button type="button" id="back" class="side" onClick=${back}>Back</button>
    <button type="button" id="undo" class="side" disabled=${!undoable.value} onClick=${takeBack}>
      Undo
    </button>
    ${
      step
        ? html`<button
            type="button"
            id="done"
            class="main"
            data-done=${done ? '1' : '0'}
            onClick=${doneNext}
          >
            ${done ? 'Next' : 'Done, next'}
          </button>`
        : html`<a id="done" class="main button" href=${to.dinner(r.id)}>To the dinner</a>`
    }
  </footer>`;
}
