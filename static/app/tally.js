// @ts-check
/**
 * How many records a store of this phone's disk holds.
 * @module
 */
import { db } from './db.js';

/**
 * Make the function that counts a store into a signal. Call it after every write to that store. A
 * count that was begun earlier than another does not replace it: it may not hold what was written
 * since.
 * @param {string} store
 * @param {{ value: number }} number
 * @returns {() => Promise<void>}
 */
export function tally(store, number) {
  let counts = 0;
  return async () => {
    const own = ++counts;
    const n = await (await db()).count(store);
    if (own === counts) number.value = n;
  };
}
