// @ts-check
/**
 * Cook mode: one step fills the screen. What to do, its amounts, its sign of done; then time and
 * heat; then what runs unattended; then the clock against the next course. Everything else is one
 * touch away.
 * @module
 */
import { html, useEffect, useLayoutEffect, useRef } from './html.js';
import { emit, undo, undoable, unsaved } from './events.js';
import { dinner, tick, stepAt } from './state.js';
import { go, route, to } from './router.js';
import { Opening } from './dinner.js';
import { NotFound } from './lost.js';
import { Strip } from './strip.js';
import { nextTask, plan } from './plan.js';
import { settings } from './settings.js';
import { Head } from './stovehead.js';
import { End } from './stoveend.js';
import { Step } from './steppanel.js';
import { named } from './undone.js';
import { PutOffWindow } from './putoff.js';
import { following, OtherPot, sentTo } from './otherpot.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */

/** The batch and step of the address. */
function here() {
  const r = route.value;
  const card = dinner.value?.cards.find((c) => c.id === r.card);
  const batch = card?.batches[r.batch - 1];
  const index = batch ? batch.steps.findIndex((s) => String(s.at.step) === r.step) : -1;
  return { r, card, batch, index, step: batch?.steps[index] };
}

/**
 * Done, and on to the next step that is not. A bouncing thumb does not tick a step that was
 * not shown yet, and a step of another card is shown by a tap of its own.
 * @param {UIEvent} [e]
 */
function doneNext(e) {
  const { r, batch, step } = here();
  if (!batch || !step) return;
  const open = !tick(step.key).peek();
  if (open && e && e.detail > 1) return;
  if (sentTo.peek() === step.key) {
    sentTo.value = '';
    return;
  }
  if (open)
    emit('tick', step.key, { done: true }).catch(() =>
      go(to.step(r.id, r.card, r.batch, step.at.step)),
    ); // not saved: go back to it; a message says why
  onward(step.key);
}

/** To what comes next, for a card that waits. @param {string} from key */
function leave(from) {
  following.value = '';
  onward(from);
}

/**
 * To what comes next: along the card that was opened until it waits, else by the plan over the whole
 * dinner, or along this card.
 * @param {string} from key
 */
function onward(from) {
  const { r, batch, index } = here();
  if (!batch) return;
  const then = batch.steps.slice(index + 1).find((s) => !tick(s.key).peek());
  if (following.peek() === batch.key && then && !batch.steps[index]?.waitLow) {
    go(to.step(r.id, r.card, r.batch, then.at.step));
    return;
  }
  const by =
    settings.order.peek() === 'card' || plan.peek()?.blocked.length ? undefined : nextTask(from);
  const p = by?.at;
  if (
    p &&
    dinner
      .peek()
      ?.cards.some(
        (c) => c.id === p.card && c.batches[p.batch - 1]?.steps.some((s) => s.key === by.key),
      )
  ) {
    if (p.card !== r.card || p.batch !== r.batch) {
      following.value = '';
      sentTo.value = by.key;
    }
    go(to.step(r.id, p.card, p.batch, p.step));
    return;
  }
  const next = then ?? batch.steps.slice(0, index).find((s) => !tick(s.key).peek());
  go(to.step(r.id, r.card, r.batch, next ? next.at.step : 'end'));
}

function back() {
  const { r, batch, index } = here();
  if (!batch) return;
  const before = r.step === 'end' ? batch.steps.at(-1) : batch.steps[index - 1];
  go(before ? to.step(r.id, r.card, r.batch, before.at.step) : to.batch(r.id, r.card, r.batch));
}

function takeBack() {
  const ev = undo();
  const at = ev?.kind === 'tick' && ev.on ? stepAt(ev.on)?.at : null;
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
  if (e.key === ' ' && pressed) return; // the button's own press
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
    // in the frame that shows the step, before a tap or the Tab key can move on
    const panel = document.getElementById('panel');
    // only then: to ask where it is would lay the page out twice
    if (scrolled.current) panel?.scrollTo(0, 0);
    if (turned.current && document.activeElement === document.body)
      panel?.focus({ preventScroll: true }); // what had the focus is gone with its step
    turned.current = true;
    if (sentTo.peek() !== step?.key) sentTo.value = '';
  }, [r.step, r.card]);
  if (!dinner.value) return html`<main id="stove" class="stove"><${Opening} /></main>`;
  if (!card || !batch || (!step && r.step !== 'end')) {
    return html`<main id="stove" class="stove">
      <div class="panel" id="panel">
        <${NotFound}
          what="This step is not in the dinner."
          why="Its card may have been changed, or the address is mistyped."
          href=${to.dinner(r.id)}
          way="To the dinner"
        />
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
        step && sentTo.value === step.key
          ? html`<${OtherPot} card=${card} step=${step} />`
          : step
            ? html`<${Step} key=${step.key} step=${step} card=${card} />`
            : html`<${End} card=${card} batch=${batch} />`
      }
    </div>
    <${Strip} />
    <${Bar} step=${step} />
    <${PutOffWindow} onward=${leave} />
  </main>`;
}

/** The bottom bar: what wet hands touch. @param {{ step?: StepView }} props */
function Bar({ step }) {
  const done = step ? tick(step.key).value : false;
  const r = route.value;
  return html`<footer class="bar">
    ${unsaved.value ? html`<p class="unsaved" role="alert">${unsaved.value}</p>` : null}
    <button type="button" id="back" class="side" onClick=${back}>Back</button>
    <button type="button" id="undo" class="side" disabled=${!undoable.value} onClick=${takeBack}>
      Undo ${undoable.value ? html`<small>${named(undoable.value)}</small>` : null}
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
            ${sentTo.value === step.key ? 'Show the step' : done ? 'Next' : 'Done, next'}
          </button>`
        : html`<a id="done" class="main button" href=${to.dinner(r.id)}>To the dinner</a>`
    }
  </footer>`;
}
