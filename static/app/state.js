// @ts-check
/**
 * The dinner on the screen: its view (amounts, steps, lists) and its state (ticks, timers, notes),
 * as signals. Only
 * follow.js changes them.
 * @module
 */
import { signal, computed, batch } from './html.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */
/** @typedef {import('./engine.d.ts').State} State */
/** @typedef {import('./engine.d.ts').StepView} StepView */

/** Which dinner. */
export const dinnerID = signal('');
/** What does not change with a tick; null until known. */
export const dinner = signal(/** @type {DinnerView | null} */ (null));
/** What the engine can't do, in its words. */
export const trouble = signal('');
/** What the events add up to. Prefer the slices below: this one changes at every tap. */
export const state = signal(/** @type {State | null} */ (null));

/** What was weighed and read, as text, by event. */
export const written = signal(/** @type {Record<string, string>} */ ({}));

/** Counts the engine's answers. Whatever depends on more than this module holds listens to it. */
export const folded = signal(0);
/** What this sheet was painted from: "" nothing yet, "disk" the last answer, "engine" this one. */
export const from = signal('');

/** Whether the engine has answered and knows of no such dinner. */
export const absent = computed(() => from.value === 'engine' && !dinner.value);

/** @type {Map<string, import('../vendor/signals.js').Signal<boolean>>} */
const ticks = new Map();

/**
 * One tick as its own signal, so that a tap redraws one line and nothing else.
 * @param {string} key
 */
export function tick(key) {
  let s = ticks.get(key);
  if (!s) ticks.set(key, (s = signal(!!state.peek()?.ticks[key]?.done)));
  return s;
}

/**
 * A part of the state that stays the same object while it says the same.
 * @template T
 * @param {(s: State) => T} pick
 * @param {T} none
 */
function slice(pick, none) {
  let was = none,
    seen = none,
    text = JSON.stringify(none);
  return computed(() => {
    const next = state.value ? pick(state.value) : none;
    // a tap changes little: a whole plan need not be compared for a tick
    if (next === seen) return was;
    seen = next;
    const said = JSON.stringify(next);
    if (said !== text) [was, text] = [next, said];
    return was;
  });
}

export const timers = slice((s) => s.timers, /** @type {State['timers']} */ ({}));
export const notes = slice((s) => s.notes, /** @type {State['notes']} */ ([]));
export const measures = slice((s) => s.measures, /** @type {State['measures']} */ ({}));
export const temps = slice((s) => s.temps, /** @type {State['temps']} */ ({}));
export const covers = computed(() => state.value?.covers ?? 0);
export const serve = computed(() => state.value?.serve ?? '');
/** The plan the cooks took last, null while they took none. */
export const taken = slice((s) => s.plan, /** @type {State['plan']} */ (null));
export const last = computed(() => state.value?.last ?? '');
export const opened = computed(() => state.value?.open ?? null);

/** When something was ticked, Unix milliseconds. @param {string} key */
export const tickedAt = (key) => state.peek()?.ticks[key]?.at ?? 0;
/** The event behind a timer. @param {string} key */
export const timerNow = (key) => state.peek()?.timers[key];

const steps = computed(() => {
  /** @type {Map<string, StepView>} */
  const all = new Map();
  for (const c of dinner.value?.cards ?? [])
    for (const b of c.batches) for (const s of b.steps) all.set(s.key, s);
  return all;
});

/** A step of the dinner by its key. @param {string} key */
export const stepAt = (key) => steps.value.get(key);

/** Show another state. @param {State | null} next */
export function show(next) {
  batch(() => {
    state.value = next;
    for (const [key, s] of ticks) s.value = !!next?.ticks[key]?.done;
  });
}
