// @ts-check
/**
 * Batch an event. On disk first, painted at once, stamped by the engine when it is awake, then
 * given to the sync. A tap waits for none of these: it is written with no stamp, in the order made,
 * and stamped in that order.
 * @module
 */
import { signal, computed } from './html.js';
import { db, meta, newID, save } from './db.js';
import { now } from './clock.js';
import { call } from './ask.js';
import { apply, paint, dinnerID, unpaint } from './follow.js';
import { settings } from './settings.js';
import { tell } from './tabs.js';

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./engine.d.ts').Kind} Kind */

/** Taps on their way to disk. The page says "saved" when this is 0. */
export const writing = signal(0);
/** Set when a tap could not be written; in words. */
export const unsaved = signal('');
/** How much the server has not yet said it has. */
export const waiting = signal(0);
/** Own events that can be taken back, newest last. */
const stack = signal(/** @type {Event[]} */ ([]));
/** The event that undo would take back. */
export const undoable = computed(() => stack.value.at(-1) ?? null);

const undoableKinds = [
  'tick',
  'timer',
  'covers',
  'guests',
  'serve',
  'way',
  'leave',
  'note',
  'measure',
  'temperature',
  'delay',
  'plan',
  'portion',
  'again',
  'have',
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
    stamp: { wall: 0, count: 0 },
    kind,
    ...(settings.who.peek() ? { who: settings.who.peek() } : {}),
    ...(on ? { on } : {}),
    ...rest,
  };
  paint(ev);
  if (undoableKinds.includes(kind)) stack.value = [...stack.peek().slice(-49), ev];
  writing.value++;
  waiting.value++;
  const written = save(['events', 'outbox'], (tx) => {
    tx.objectStore('events').put(ev);
    tx.objectStore('outbox').put({ type: 'event', id: ev.id });
  });
  written
    .then(
      () => {
        unsaved.value = '';
        stampAll();
      },
      (err) => {
        waiting.value--;
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
    });
  return written;
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

let stamping = Promise.resolve();

/** Stamp what is not stamped, in the order made, and pass it on. */
export function stampAll() {
  stamping = stamping
    .then(() => locked('hobside-stamp', stampNow))
    .catch((err) => {
      unsaved.value = 'Saved here, but not sent: ' + err.message;
    });
  return stamping;
}

async function stampNow() {
  const d = await db();
  const tx = d.transaction(['outbox', 'events', 'meta']);
  const out = await tx.objectStore('outbox').getAll();
  const events = (
    await Promise.all(
      out.filter((w) => w.type === 'event').map((w) => tx.objectStore('events').get(w.id)),
    )
  ).filter((ev) => ev && ev.stamp.wall === 0);
  if (events.length === 0) return;
  // another tab may have stamped since
  const last = (await tx.objectStore('meta').get('last')) ?? meta.last;
  const answer = await call('stamp', { now: now(), last, events });
  await save(['events', 'meta'], (t) => {
    for (const ev of answer.events) t.objectStore('events').put(ev);
    t.objectStore('meta').put(answer.last, 'last');
  });
  meta.last = answer.last;
  tell({ events: answer.events });
  await apply(answer.events);
}

/** Count what waits, as after another tab's work. */
export async function countWaiting() {
  waiting.value = await (await db()).count('outbox');
}

/**
 * One tab at a time, where the browser can.
 * @param {string} name
 * @param {() => Promise<void>} fn
 * @returns {Promise<void>}
 */
function locked(name, fn) {
  return navigator.locks ? navigator.locks.request(name, fn) : fn();
}
