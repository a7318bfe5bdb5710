// @ts-check
/**
 * The stamp of an event: a hybrid logical clock, the rule of internal/dinner (clock.go). It is
 * written twice, here and
 * in Go, because a tick must get its place in time when the engine does not start.
 * testdata/stamps.json holds both.
 * @module
 */

/** @typedef {import('./engine.d.ts').Stamp} Stamp */

/** The largest counter a stamp may have. */
const MOST = 2 ** 31 - 1;

/**
 * The stamp of a new event: later than last, whatever the clock says.
 * @param {number} now Unix milliseconds
 * @param {Stamp} last the latest stamp that this phone made or saw
 * @returns {Stamp}
 */
export function next(now, last) {
  if (now > last.wall) return { wall: now, count: 0 };
  if (last.count >= MOST) return { wall: last.wall + 1, count: 0 };
  return { wall: last.wall, count: last.count + 1 };
}

/** Whether stamp a is later than b. @param {Stamp} a @param {Stamp} b */
export const later = (a, b) => a.wall > b.wall || (a.wall === b.wall && a.count > b.count);
