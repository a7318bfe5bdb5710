// @ts-check
/**
 * The files that a dinner pins, for the engine; what it did not get is named among the problems.
 * @module
 */
import { texts } from './db.js';
import { leftOut, leftOutProblems, mayRead } from './suspects.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */
/** @typedef {import('./engine.d.ts').Event} Event */

/**
 * The files these events pin, as far as this phone has them and the engine may read them.
 * @param {Event[]} events
 */
export async function pinned(events) {
  const wanted = new Set(events.flatMap((ev) => Object.values(ev.open?.files ?? {})));
  if (wanted.size === 0) return [];
  return (await texts([...wanted])).filter((file) => file !== undefined).filter(mayRead);
}

/**
 * @param {import('./db.js').Revision[]} files
 * @returns {Record<string, string>} text by revision
 */
export const textsOf = (files) => Object.fromEntries(files.map((f) => [f.revision, f.text]));

/** A dinner with words for the files that the engine did not get. @param {DinnerView} d */
export function withLeftOut(d) {
  const out = new Set(leftOut.peek().map((m) => m.name));
  const names = [...new Set(d.problems.map((p) => p.file))].filter((name) => out.has(name));
  if (names.length === 0) return d;
  const rest = d.problems.filter((p) => !out.has(p.file));
  return { ...d, problems: [...leftOutProblems(names), ...rest] };
}
