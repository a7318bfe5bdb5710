// @ts-check
/**
 * The plan of the dinner on the screen: when each step starts. The engine works it out, anew when
 * something happened or time went by; the last answer is kept on disk, so that a phone opens with
 * it.
 * @module
 */
import { computed, effect, signal } from './html.js';
import { db, save } from './db.js';
import { ask, engine, read } from './ask.js';
import { minute, now } from './clock.js';
import { emit } from './events.js';
import { dinner, folded, from, serve, dinnerID, tick, timers } from './state.js';
import { settings } from './settings.js';
import { moment } from './words.js';
import { clockChanges } from './zone.js';

/** @typedef {import('./engine.d.ts').Schedule} Schedule */
/** @typedef {import('./engine.d.ts').Task} Task */

const held = signal(/** @type {{ dinner: string, view: Schedule } | null} */ (null));
/** The plan of the dinner on the screen, null until known. */
export const plan = computed(() =>
  held.value?.dinner === dinnerID.value ? held.value.view : null,
);
/** Whether the engine works on the plan. */
export const working = signal(false);
/** What the engine can't do, in its words. */
export const planTrouble = signal('');

/** A minute of the plan as a moment. @param {number} m */
export const at = (m) => moment(serve.value) + m * 60_000;
/** The current minute of the plan. */
export const nowMinute = computed(() => Math.floor((minute.value - moment(serve.value)) / 60_000));

/** What is still to be done and not running by itself, in the plan's order. */
export const todo = computed(() =>
  (plan.value?.tasks ?? []).filter((t) => !tick(t.key).value && !timers.value[t.key]),
);

/** Whose steps this phone follows: 1 + index of the cooks, 0 for everybody's. */
export const me = computed(() =>
  Math.min(Number(settings.cook.value) || 0, plan.value?.cooks.length ?? 0),
);

/** Whether a task is done by a cook. @param {Task} t @param {number} cook 1 + index of the cooks */
export const isBy = (t, cook) => t.cook === cook || !!t.with?.includes(cook); // a kept view may be of an older version

/** Whether this phone follows a task. @param {Task} t */
export const isMine = (t) => !me.value || !t.cook || isBy(t, me.value);

/** What comes next for this phone; one step is left out. @param {string} [but] key */
export const nextTask = (but) => todo.value.find((t) => t.key !== but && isMine(t));

/** Steps that should have begun by now, once the dinner is under way. */
export const late = computed(() =>
  plan.value?.under ? todo.value.filter((t) => !t.held && t.latest < nowMinute.value) : [],
);

let asked = 0;
/**
 * Whether somebody wants the chances, or what fixes it, along with the plan; until another
 * dinner is opened.
 */
export const deep = signal('');

/** Work the plan out. Fresh means without the plan that the cooks know. @param {{ fresh?: boolean }} [how] */
export async function work(how) {
  const id = dinnerID.peek(),
    serveAt = moment(serve.peek());
  if (!id || !serveAt) return;
  const turn = ++asked;
  working.value = true;
  try {
    const json = await ask('plan', {
      dinner: id,
      serveAt,
      now: now(),
      clockChanges: clockChanges(serveAt),
      fresh: !!how?.fresh,
      full: deep.peek() === id,
    });
    if (turn !== asked || dinnerID.peek() !== id) return;
    held.value = { dinner: id, view: read(json) };
    planTrouble.value = '';
    save(['views'], (tx) => {
      tx.objectStore('views').put(json, 'plan:' + id);
    }).catch(() => {}); // a convenience: it can be worked out again
  } catch (err) {
    planTrouble.value = err instanceof Error ? err.message : String(err);
  } finally {
    if (turn === asked) working.value = false;
  }
}

/** The chances, or what fixes it, too. */
export function workDeep() {
  deep.value = dinnerID.peek();
  work();
}

/** Go by the plan on the screen from now on, on every phone, with the ways it takes. */
export function takePlan() {
  const view = plan.peek();
  if (!view || view.blocked.length) return;
  for (const w of view.ways) if (!w.taken) emit('way', w.card, { number: w.number });
  emit('plan', '', { plan: view.starts });
}

/** Keep the plan up to date: after every change, and each minute while the dinner is under way. */
export function startPlan() {
  effect(() => {
    const id = dinnerID.value;
    if (!id || held.peek()?.dinner === id) return;
    db()
      .then((d) => d.get('views', 'plan:' + id))
      .then((json) => {
        if (json && dinnerID.peek() === id && held.peek()?.dinner !== id)
          held.value = { dinner: id, view: JSON.parse(json) };
      })
      .catch(() => {});
  });
  /** @type {ReturnType<typeof setTimeout>} */
  let soon;
  effect(() => {
    folded.value;
    if (plan.value?.under) minute.value;
    if (!dinner.value || from.value !== 'engine' || engine.value !== 'ready') return;
    clearTimeout(soon);
    soon = setTimeout(() => {
      if (!document.hidden) work();
    }, 700); // after the last of several quick taps
  });
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden && from.peek() === 'engine') work();
  });
}
