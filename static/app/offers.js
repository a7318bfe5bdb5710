// @ts-check
/**
 * What goes to the server in one request, and in which order. No network and no screen here: the
 * sync asks, and sends.
 * @module
 */

/** @typedef {import('./engine.d.ts').Event} Event */
/** @typedef {import('./db.js').Waiting} Waiting */
/** @typedef {import('./db.js').Revision} Revision */
/**
 * @typedef {{
 *   id: string, name: string, base: string, text: string, revision?: string,
 *   beside?: string, settles?: string[],
 * }} FileOffer
 */

/** The server takes 500 records in one request, and 1 MiB. */
export const PAGE = 400;
const BYTES = 600_000;
/** What one record may weigh on its own: the rest of the request has to fit, too. */
export const MOST = 1_000_000;

const utf8 = new TextEncoder();

/**
 * How many bytes something takes on the wire. A letter is up to three, and a line break in a text
 * is two.
 * @param {unknown} what
 */
export const weigh = (what) => utf8.encode(JSON.stringify(what)).length + 1;

/**
 * One page: events that are stamped, in the order made, and files, one of a name at a time so that
 * each builds on the last. Heavy is what no request can ever carry.
 * @param {Waiting[]} out
 * @param {(id: string) => Promise<Event | undefined>} event
 * @param {number} [records]
 */
export async function fill(out, event, records = PAGE) {
  /** @type {Event[]} */ const events = [];
  /** @type {FileOffer[]} */ const files = [];
  /** @type {(Event | FileOffer)[]} */ const heavy = [];
  let bytes = 0,
    left = false;
  for (const w of out) {
    if (events.length + files.length >= records) {
      left = true;
      break;
    }
    if (w.type === 'file' && files.some((f) => f.name === w.name)) {
      left = true;
      continue;
    }
    const what = w.type === 'file' ? offer(w) : await event(w.id);
    if (!what || ('stamp' in what && what.stamp.wall === 0)) continue; // stampEarlier comes first
    const weight = weigh(what);
    if (weight > MOST) {
      heavy.push(what);
      continue;
    }
    if (bytes > 0 && bytes + weight > BYTES) {
      left = true;
      break;
    }
    bytes += weight;
    if ('stamp' in what) events.push(what);
    else files.push(what);
  }
  return { events, files, heavy, left };
}

/** A file as it is offered. @param {Waiting} w @returns {FileOffer} */
const offer = (w) => ({
  id: w.id,
  name: w.name ?? '',
  base: w.base ?? '',
  text: w.text ?? '',
  // the server refuses a text that was damaged since it was named
  ...(w.revision ? { revision: w.revision } : {}),
  ...(w.beside ? { beside: w.beside } : {}),
  ...(w.settles?.length ? { settles: w.settles } : {}),
});

/**
 * Revisions so that each comes after the one it was made from; else the older first. The times
 * alone do not say: two phones' clocks differ. A text taken back to what it was makes a ring, which
 * is cut where it is oldest.
 * @param {Revision[]} files
 */
export function inOrder(files) {
  const byTime = [...files].sort((a, b) => a.at - b.at);
  const by = new Map(byTime.map((f) => [f.name + '\n' + f.revision, f]));
  /** @type {Set<Revision>} */ const seen = new Set();
  /** @type {Revision[]} */ const out = [];
  for (const f of byTime) {
    /** @type {Revision[]} */ const chain = [];
    for (
      let at = /** @type {Revision | undefined} */ (f);
      at && !seen.has(at);
      at = by.get(at.name + '\n' + at.base)
    ) {
      seen.add(at);
      chain.push(at);
    }
    out.push(...chain.reverse());
  }
  return out;
}
