// @ts-check
/**
 * Make an event: stamp it, paint it, write it to the phone's disk, then hand it to the sync, the
 * other tabs and the
 * engine. A tap waits for neither the network nor the engine.
 * @module
 */
import { signal, computed } from './html.js';
import { db, meta, newID, save } from './db.js';
import { now } from './clock.js';
import { apply, paint, unpaint } from './follow.js';
import { dinnerID } from './state.js';
import { settings } from './settings.js';
import { later, next } from './stamp.js';
import { onNews, tell } from './tabs.js';
import { tally } from './tally.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./engine.d.ts').Kind} Kind */
/** @typedef {import('./engine.d.ts').Stamp} Stamp */

/** How many taps are being written. The page says "saved" when this is 0. */
export const writing = signal(0);
/** Set when a tap could not be written; in words. */
export const unsaved = signal('');
/** How many records the server has not confirmed yet. */
export const waiting = signal(0);
/** Own events that can be taken back, newest last. */
const stack = signal(/** @type {Event[]} */ ([]));
/** The event that undo would take back. */
export const undoable = computed(() => stack.value.at(-1) ?? null);

/** Kinds that change the dinner itself: such a change is named, with its undo, where it is made. */
export const choices = [
  'covers',
  'guests',
  'serve',
  'way',
  'leave',
  'plate',
  'portion',
  'again',
  'plan',
];
/** The change of the dinner that was made last on this phone, until it is looked at; null for none. */
export const chosen = signal(/** @type {Event | null} */ (null));

const undoableKinds = [
  'tick',
  'start',
  'timer',
  'covers',
  'guests',
  'serve',
  'way',
  'leave',
  'plate',
  'note',
  'measure',
  'temperature',
  'delay',
  'plan',
  'change',
  'portion',
  'again',
  'have',
  'shelve',
];

/**
 * Something happened. Paints at once; the promise settles when it is on disk.
 * @param {Kind} kind @param {string} on key, "" for the dinner as a whole
 * @param {Partial<Event>} [rest] @param {string} [dinner]
 */
export function emit(kind, on, rest, dinner = dinnerID.peek()) {
  /** @type {Event} */
  const ev = {
    id: newID(),
    dinner,
    device: meta.device,
    stamp: stamp(),
    kind,
    ...(settings.who.peek() ? { who: settings.who.peek() } : {}),
    ...(on ? { on } : {}),
    ...rest,
  };
  paint(ev);
  if (undoableKinds.includes(kind)) stack.value = [...stack.peek().slice(-49), ev];
  if (choices.includes(kind)) chosen.value = ev;
  forget([ev]);
  writing.value++;
  waiting.value++;
  const written = save(['events', 'outbox', 'meta'], (tx) => {
    tx.objectStore('events').put(ev);
    tx.objectStore('outbox').put({ type: 'event', id: ev.id });
    tx.objectStore('meta').put(meta.last, 'last');
  });
  written
    .then(
      () => {
        unsaved.value = '';
        tell({ events: [ev] });
        apply([ev]);
      },
      (err) => {
        unsaved.value =
          err?.name === 'QuotaExceededError'
            ? 'Not saved: this phone has no room left. Free some, then tap again.'
            : 'Not saved: ' + (err?.message ?? err) + '. Tap again; if it stays so, reload.';
        stack.value = stack.peek().filter((e) => e.id !== ev.id);
        unpaint(ev); // the screen shows what is kept and nothing else
      },
    )
    .finally(() => {
      writing.value--;
      countWaiting().catch(() => {}); // the next one will do
    });
  return written;
}

/**
 * What was taken back, here by its own button or on another phone, is no step of undo any more.
 * @param {Event[]} events
 */
export function forget(events) {
  const off = new Set(events.map((ev) => ev.undo).filter(Boolean));
  if (!off.size) return;
  if (stack.peek().some((ev) => off.has(ev.id)))
    stack.value = stack.peek().filter((ev) => !off.has(ev.id));
  if (off.has(chosen.peek()?.id)) chosen.value = null;
}

/** Take the newest own event back. @returns {Event | null} the one taken back */
export function undo() {
  const ev = stack.peek().at(-1);
  if (!ev) return null;
  stack.value = stack.peek().slice(0, -1);
  emit('undo', '', { undo: ev.id }, ev.dinner).catch(() => {
    stack.value = [...stack.peek(), ev];
  });
  return ev;
}

/**
 * What undo can reach in a dinner that was just opened: this phone's own last events.
 * @param {string} dinner
 */
export async function fillUndo(dinner) {
  /** @type {Event[]} */
  const all = await (await db()).getAllFromIndex('events', 'dinner', dinner);
  const off = new Set(all.map((ev) => ev.undo));
  const own = all.filter(
    (ev) => ev.device === meta.device && undoableKinds.includes(ev.kind) && !off.has(ev.id),
  );
  if (dinnerID.peek() !== dinner) return;
  const known = new Set(own.map((ev) => ev.id));
  stack.value = [
    ...own.sort((a, b) => (a.id < b.id ? -1 : 1)).slice(-50),
    ...stack.peek().filter((ev) => ev.dinner === dinner && !known.has(ev.id)),
  ];
}

/** The stamp of an event made now. */
function stamp() {
  meta.last = next(now(), meta.last);
  return meta.last;
}

/** Stamp what this phone makes from now on after a stamp that it saw. @param {Stamp} seen */
export function observe(seen) {
  if (later(seen, meta.last)) meta.last = seen;
}

onNews((news) => {
  for (const ev of news.events ?? []) observe(ev.stamp);
  forget(news.events ?? []);
}); // another tab's events

/**
 * Stamp the events that an earlier release left without one: there the engine made the stamps. They
 * are stamped in the
 * order made.
 */
export async function stampEarlier() {
  /** @type {Event[]} */
  const stamped = [];
  await save(['outbox', 'events', 'meta'], async (tx) => {
    const events = tx.objectStore('events');
    for (const w of await tx.objectStore('outbox').getAll()) {
      const ev = w.type === 'event' && (await events.get(w.id));
      if (ev && ev.stamp.wall === 0) stamped.push({ ...ev, stamp: stamp() });
    }
    for (const ev of stamped) events.put(ev);
    if (stamped.length) tx.objectStore('meta').put(meta.last, 'last');
  });
  if (stamped.length === 0) return;
  tell({ events: stamped });
  apply(stamped);
}

/** Count what waits to be sent. */
export const countWaiting = tally('outbox', waiting);
