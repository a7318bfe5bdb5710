// @ts-check
/**
 * The dinner on the screen: its view (amounts, steps, lists) and its state (ticks, timers, notes),
 * as signals. Painted from the last answer on disk, then from the engine; taps made meanwhile lie
 * over it until the engine has them.
 * @module
 */
import { signal, computed, batch } from './html.js';
import { db, save, texts } from './db.js';
import { ask, read } from './ask.js';
import { overlay } from './overlay.js';
import { settings } from './settings.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */
/** @typedef {import('./engine.d.ts').State} State */
/** @typedef {import('./engine.d.ts').Sheet} Sheet */
/** @typedef {import('./engine.d.ts').Event} Event */

/** Which dinner. */
export const dinnerID = signal('');
/** What does not change with a tick; null until known. */
export const dinner = signal(/** @type {DinnerView | null} */ (null));
/** What the engine can't do, in its words. */
export const trouble = signal('');
/** What the events add up to. Prefer the slices below: this one changes at every tap. */
const state = signal(/** @type {State | null} */ (null));

/** Counts the engine's answers: what depends on more than is shown here listens to it. */
export const folded = signal(0);
/** What this sheet was painted from: "" nothing yet, "disk" the last answer, "engine" this one. */
export const from = signal('');

/** @type {State | null} the engine's last word */
let base = null;
/** @type {Event[]} taps the engine has not folded */
let pending = [];
/** @type {Map<string, Event>} own events, for undo to know what they were */
const mine = new Map();
/** @type {Map<string, import('../vendor/signals.js').Signal<boolean>>} */
const ticks = new Map();
/** Everything that goes to the engine about dinners goes one after another. */
let turn = Promise.resolve();

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
    // a tap leaves most as it was: no need to read a whole plan for a tick
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

/** @param {State | null} next */
function show(next) {
  batch(() => {
    state.value = next;
    for (const [key, s] of ticks) s.value = !!next?.ticks[key]?.done;
  });
}

function again() {
  show(
    base &&
      pending.reduce((s, ev) => overlay(s, ev, ev.undo ? mine.get(ev.undo) : undefined), base),
  );
}

/** Paint a tap at once. @param {Event} ev */
export function paint(ev) {
  mine.set(ev.id, ev);
  if (ev.dinner !== dinnerID.peek()) return;
  pending.push(ev);
  const s = state.peek();
  if (s) show(overlay(s, ev, ev.undo ? mine.get(ev.undo) : undefined));
}

/** A tap that could not be kept: the screen must not show it. @param {Event} ev */
export function unpaint(ev) {
  pending = pending.filter((e) => e.id !== ev.id);
  again();
}

/**
 * Follow a dinner: from disk at once, then from the engine.
 * @param {string} id
 */
export async function follow(id) {
  if (dinnerID.peek() === id) return;
  batch(() => {
    dinnerID.value = id;
    dinner.value = null;
    from.value = '';
    trouble.value = '';
    base = null;
    pending = [];
    mine.clear();
    show(null);
  });
  await fromDisk(id);
  await reopen();
}

/**
 * The last answer kept, so that there is something to cook from before the engine wakes.
 * @param {string} id
 */
async function fromDisk(id) {
  const tx = (await db()).transaction(['views', 'outbox', 'events']);
  const [sheet, newer, waiting] = await Promise.all([
    tx.objectStore('views').get('sheet:' + id),
    tx.objectStore('views').get('state:' + id),
    tx.objectStore('outbox').getAll(),
  ]);
  // What waits for the server may be newer than the answer; laid over twice it says the same.
  const events = await Promise.all(
    waiting.filter((w) => w.type === 'event').map((w) => tx.objectStore('events').get(w.id)),
  );
  if (dinnerID.peek() !== id || from.peek() === 'engine' || !sheet) return;
  const early = pending; // taps made while the disk was read
  batch(() => {
    const s = /** @type {Sheet} */ (JSON.parse(sheet));
    base = newer ? JSON.parse(newer).state : (s.state ?? null);
    dinner.value = s.dinner ?? null;
    from.value = 'disk';
    const kinds = ['tick', 'timer', 'covers', 'serve', 'way', 'leave'];
    pending = [...events.filter((ev) => ev?.dinner === id && kinds.includes(ev.kind)), ...early];
    again();
  });
}

/** Give the engine all of the open dinner, as after a restamp or a refusal. */
export function reopen() {
  const id = dinnerID.peek();
  return inTurn(async () => {
    if (dinnerID.peek() !== id || !id) return;
    const d = await db();
    const events = (await d.getAllFromIndex('events', 'dinner', id)).filter(
      (ev) => ev.stamp.wall !== 0,
    );
    for (const ev of events) mine.set(ev.id, ev);
    const texts = await pinned(events);
    await ask('prefs', { system: settings.system.peek(), scale: settings.scale.peek() });
    const json = await ask('open', { dinner: id, texts, events });
    pending = pending.filter((ev) => ev.stamp.wall === 0 && !events.some((e) => e.id === ev.id));
    take(id, json);
  });
}

/** Give the engine more events of the open dinner. @param {Event[]} events stamped */
export function apply(events) {
  const id = dinnerID.peek();
  const ours = events.filter((ev) => ev.dinner === id);
  if (!id || ours.length === 0) return Promise.resolve();
  return inTurn(async () => {
    if (dinnerID.peek() !== id) return;
    for (const ev of ours) mine.set(ev.id, ev);
    const json = await ask('apply', { dinner: id, texts: await pinned(ours), events: ours });
    const done = new Set(ours.map((ev) => ev.id));
    pending = pending.filter((ev) => !done.has(ev.id));
    take(id, json);
  });
}

/** Show amounts in the cook's way from now on. */
export function prefer() {
  const id = dinnerID.peek();
  return inTurn(async () => {
    const json = await ask('prefs', {
      dinner: id,
      system: settings.system.peek(),
      scale: settings.scale.peek(),
    });
    if (id && dinnerID.peek() === id) take(id, json);
  });
}

/** @param {() => Promise<void>} fn */
function inTurn(fn) {
  turn = turn.then(fn).catch((err) => {
    trouble.value = err.message;
  });
  return turn;
}

/** @param {string} id @param {string} json */
function take(id, json) {
  const sheet = /** @type {Sheet} */ (read(json));
  const { state } = sheet;
  if (dinnerID.peek() !== id || !state) return;
  batch(() => {
    base = state;
    if (sheet.dinner) dinner.value = sheet.dinner;
    from.value = 'engine';
    trouble.value = '';
    folded.value++;
    again();
  });
  keep(id, sheet, state, json);
}

/**
 * Keep the answer for the next cold start. A state alone is small and goes beside the last dinner.
 * @param {string} id
 * @param {Sheet} sheet
 * @param {State} state
 * @param {string} json
 */
function keep(id, sheet, state, json) {
  const d = sheet.dinner ?? dinner.peek();
  save(['views'], (tx) => {
    const views = tx.objectStore('views');
    if (sheet.dinner) {
      views.put(json, 'sheet:' + id);
      views.delete('state:' + id);
    } else {
      views.put(json, 'state:' + id);
    }
    if (d)
      views.put({ id, title: d.title, covers: state.covers, serve: state.serve }, 'line:' + id);
  }).catch(() => {}); // a convenience: the events themselves are what must not be lost
}

/** The texts these events pin, as far as this phone has them. @param {Event[]} events */
async function pinned(events) {
  /** @type {Record<string, string>} */
  const out = {};
  const wanted = new Set(events.flatMap((ev) => Object.values(ev.open?.files ?? {})));
  if (wanted.size === 0) return out;
  for (const file of await texts([...wanted])) if (file) out[file.revision] = file.text;
  return out;
}
