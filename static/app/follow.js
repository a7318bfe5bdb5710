// @ts-check
/**
 * Following a dinner: what is on the screen is the last answer on disk, then the engine's answer;
 * taps made meanwhile are
 * painted over it until the engine has folded them.
 * @module
 */
import { batch, effect } from './html.js';
import { db, save } from './db.js';
import { ask, read, restarts } from './ask.js';
import { discard } from './damage.js';
import { overlay } from './overlay.js';
import { settings } from './settings.js';
import { dinner, dinnerID, folded, from, show, state, stepAt, trouble, written } from './state.js';
import { pinned, textsOf, withLeftOut } from './pinned.js';

/** @typedef {import('./engine.d.ts').State} State */
/** @typedef {import('./engine.d.ts').Sheet} Sheet */
/** @typedef {import('./engine.d.ts').Event} Event */

/** @type {State | null} the engine's last word */
let base = null;
/** @type {Event[]} events that the engine has not folded */
let pending = [];
/** @type {Set<string>} ids of taps that are not on disk yet */
const unwritten = new Set();
/** @type {Map<string, Event>} own events, for undo to know what they were */
const mine = new Map();
/** Calls to the engine about dinners are made one after another. */
let turn = Promise.resolve();

/** Whether a key is that of a step. @param {string} key */
const isStep = (key) => !!stepAt(key);

function again() {
  show(
    base &&
      pending.reduce(
        (s, ev) => overlay(s, ev, ev.undo ? mine.get(ev.undo) : undefined, isStep),
        base,
      ),
  );
}

/** Paint a tap at once. @param {Event} ev */
export function paint(ev) {
  mine.set(ev.id, ev);
  unwritten.add(ev.id);
  if (ev.dinner !== dinnerID.peek()) return;
  pending.push(ev);
  const s = state.peek();
  if (s) show(overlay(s, ev, ev.undo ? mine.get(ev.undo) : undefined, isStep));
}

/** A tap that could not be kept: the screen must not show it. @param {Event} ev */
export function unpaint(ev) {
  unwritten.delete(ev.id);
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
    written.value = {};
    show(null);
  });
  await fromDisk(id);
  await reopen();
}

/**
 * Show the last answer from disk, so that there is something to cook from before the engine starts.
 * @param {string} id
 */
async function fromDisk(id) {
  const tx = (await db()).transaction(['views', 'outbox', 'events']);
  const [sheet, newer, waiting] = await Promise.all([
    tx.objectStore('views').get('sheet:' + id),
    tx.objectStore('views').get('state:' + id),
    tx.objectStore('outbox').getAll(),
  ]);
  // What waits for the server may be newer than the answer. To show it twice changes nothing.
  const events = await Promise.all(
    waiting.filter((w) => w.type === 'event').map((w) => tx.objectStore('events').get(w.id)),
  );
  if (dinnerID.peek() !== id || from.peek() === 'engine' || !sheet) return;
  const early = pending; // taps made while the disk was read
  batch(() => {
    const s = /** @type {Sheet} */ (JSON.parse(sheet));
    const last = /** @type {Sheet} */ (newer ? JSON.parse(newer) : s);
    base = last.state ?? null;
    written.value = last.written;
    dinner.value = s.dinner ?? null;
    from.value = 'disk';
    const kinds = ['tick', 'timer', 'covers', 'serve', 'way', 'leave'];
    pending = [...events.filter((ev) => ev?.dinner === id && kinds.includes(ev.kind)), ...early];
    again();
  });
}

/** Give the engine the whole open dinner again, as after a new stamp or a refusal. */
export function reopen() {
  const id = dinnerID.peek();
  return inTurn(async () => {
    if (dinnerID.peek() !== id || !id) return;
    // What is not among the events on disk by now was refused and put aside.
    const holds = new Set(pending.filter((ev) => !unwritten.has(ev.id)).map((ev) => ev.id));
    const events = (await (await db()).getAllFromIndex('events', 'dinner', id)).filter(
      (ev) => ev.stamp.wall !== 0,
    );
    for (const ev of events) {
      mine.set(ev.id, ev);
      holds.add(ev.id);
    }
    const files = await pinned(events);
    await ask('prefs', { system: settings.system.peek(), scale: settings.scale.peek() });
    take(id, await ask('open', { dinner: id, texts: textsOf(files), events }, files), holds);
  });
}

/** Give the engine more events of the open dinner; they are on disk. @param {Event[]} events */
export function apply(events) {
  for (const ev of events) unwritten.delete(ev.id);
  const id = dinnerID.peek();
  const ours = events.filter((ev) => ev.dinner === id);
  if (!id || ours.length === 0) return Promise.resolve();
  return inTurn(async () => {
    if (dinnerID.peek() !== id) return;
    for (const ev of ours) mine.set(ev.id, ev);
    const files = await pinned(ours);
    try {
      take(
        id,
        await ask('apply', { dinner: id, texts: textsOf(files), events: ours }, files),
        new Set(ours.map((ev) => ev.id)),
      );
    } catch (err) {
      overlayAll(ours);
      throw err;
    }
  });
}

/**
 * Show events that the engine could not take, as far as that is possible without it.
 * @param {Event[]} events
 */
function overlayAll(events) {
  const shown = new Set(pending.map((ev) => ev.id));
  pending = [...pending, ...events.filter((ev) => !shown.has(ev.id))];
  again();
}

// An engine that was started again knows nothing of the dinner.
effect(() => {
  if (restarts.value) reopen();
});

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

/** When the engine has taken what it was given so far. */
export const settled = () => turn;

/** @param {() => Promise<void>} fn */
function inTurn(fn) {
  turn = turn.then(fn).catch((err) => {
    trouble.value = err.message;
  });
  return turn;
}

/**
 * Show an answer, with the taps over it that it does not hold.
 * @param {string} id
 * @param {string} json
 * @param {Set<string>} [holds] ids of the events that the engine had
 */
function take(id, json, holds) {
  const sheet = /** @type {Sheet} */ (read(json));
  const { state } = sheet;
  if (dinnerID.peek() !== id || !state) return;
  batch(() => {
    base = state;
    written.value = sheet.written;
    pending = pending.filter((ev) => !holds?.has(ev.id));
    if (sheet.dinner) dinner.value = withLeftOut(sheet.dinner);
    from.value = 'engine';
    trouble.value = '';
    folded.value++;
    again();
  });
  discard(sheet.damaged).catch(() => {});
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
      views.put(
        {
          id,
          title: d.title,
          covers: state.covers,
          serve: state.serve,
          zone: d.zone,
          shelf: state.shelf,
        },
        'line:' + id,
      );
  }).catch(() => {}); // a convenience: the events themselves are what must not be lost
}
