// @ts-check
/**
 * Timers. Each belongs to a step, is an event like any other and so shows on every phone of the
 * dinner; each is an end time on the wall clock. This module rings when one ends.
 * @module
 */
import { computed, effect, signal } from './html.js';
import { second, now } from './clock.js';
import { emit } from './events.js';
import { dinner, timers, stepAt } from './state.js';
import { askNotices, notice, ring } from './alarm.js';

/** @typedef {import('./engine.d.ts').StepView} StepView */
/**
 * @typedef {{
 *   key: string, start: number, end: number, name: string, step: number,
 *   atLeast: boolean, low: number, high: number,
 * }} Running
 */

/** Every timer of the dinner, the first to end first, with its name. */
export const running = computed(() => {
  const d = dinner.value;
  return Object.entries(timers.value)
    .map(([key, t]) => {
      const step = stepAt(key);
      const card = d?.cards.find((c) => c.id === step?.at.card);
      return /** @type {Running} */ ({
        key,
        start: t.start,
        end: t.end,
        name: card?.title ?? 'A step no longer in the dinner',
        step: step?.number ?? 0,
        atLeast: !!step?.atLeast,
        low: step?.waitLow ?? 0,
        high: step?.waitHigh ?? 0,
      });
    })
    .sort((a, b) => a.end - b.end);
});

/** Keys of timers that have ended and that somebody here has not yet silenced. */
export const ringing = signal(/** @type {string[]} */ ([]));
/** What a screen reader says when a timer ends. */
export const said = signal('');
/** @type {Map<string, number>} rung already: key -> its end */
const rung = new Map();

/** Start the step's own time, or another. @param {string} key @param {number} seconds */
export function startTimer(key, seconds) {
  askNotices();
  const start = now();
  emit('timer', key, { start, end: start + seconds * 1000 });
}

/** More or less time on a running one. @param {Running} t @param {number} seconds */
export function moreTime(t, seconds) {
  const end = Math.max(t.end, now()) + seconds * 1000;
  rung.delete(t.key);
  hush(t.key);
  emit('timer', t.key, { start: t.start, end: Math.max(end, now() + 1000) });
}

/** @param {string} key */
export function stopTimer(key) {
  hush(key);
  emit('timer', key, { start: now(), end: 0 });
}

/** Stop the bell and keep the timer. @param {string} key */
export function hush(key) {
  ringing.value = ringing.peek().filter((k) => k !== key);
}

/** Ring when one ends, and every ten seconds for two minutes until somebody stops it. */
export function startTimers() {
  effect(() => {
    const t = second.value;
    const keys = new Set(running.value.map((r) => r.key));
    if (ringing.peek().some((k) => !keys.has(k)))
      ringing.value = ringing.peek().filter((k) => keys.has(k));
    for (const r of running.value) {
      const late = t - r.end;
      if (late < 0 || rung.get(r.key) === r.end) continue;
      rung.set(r.key, r.end);
      if (late > 120_000) continue; // it ended while the page was closed: shown as late, not rung
      ringing.value = [...ringing.peek(), r.key];
      said.value =
        r.name +
        ', step ' +
        r.step +
        (r.atLeast ? ': the least time is over, have a look' : ': time is up');
      ring();
      if (document.hidden) notice(said.value, r.key);
    }
  });
  effect(() => {
    if (ringing.value.length === 0) return;
    const again = setInterval(ring, 10_000);
    const enough = setTimeout(() => {
      clearInterval(again);
    }, 120_000);
    return () => {
      clearInterval(again);
      clearTimeout(enough);
    };
  });
}
