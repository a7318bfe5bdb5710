// @ts-check
/**
 * Times and counts as words. Only for the eye: what must be right is worked out by the engine.
 * @module
 */
import { now } from './clock.js';
import { momentOf, wallAt } from './zone.js';

const two = (/** @type {number} */ n) => String(n).padStart(2, '0');

/** Time left as a kitchen clock shows it: "12:04", "4:05:00"; late: "+0:30". @param {number} ms */
export function left(ms) {
  const late = ms < 0;
  const s = late ? Math.floor(-ms / 1000) : Math.ceil(ms / 1000);
  const h = Math.floor(s / 3600),
    m = Math.floor(s / 60) % 60;
  return (late ? '+' : '') + (h ? h + ':' + two(m) : String(m)) + ':' + two(s % 60);
}

/**
 * A span for reading, never rounded to nothing: "under 1 min", "45 min", "4 h 10 min", "2 d 12 h".
 * From two weeks on in days. @param {number} ms
 */
export function span(ms) {
  const exact = Math.abs(ms) / 60000;
  if (exact > 0 && exact < 1) return 'under 1 min';
  const min = Math.round(exact);
  const h = Math.floor(min / 60);
  if (h < 48) return parts(h, 'h', min % 60, 'min');
  const hours = Math.round(min / 60);
  if (hours < 14 * 24) return parts(Math.floor(hours / 24), 'd', hours % 24, 'h');
  return Math.round(hours / 24) + ' d';
}

/**
 * "4 h 10 min" without what is zero; all zero is "0 min".
 * @param {number} a @param {string} large @param {number} b @param {string} small
 */
const parts = (a, large, b, small) =>
  [a && `${a} ${large}`, (b || !a) && `${b} ${small}`].filter(Boolean).join(' ');

/**
 * "19:30" of a moment, by the kitchen's clock; by this phone's where the zone is "".
 * @param {number} ms @param {string} [of] zone
 */
export const clock = (ms, of) => wallAt(ms, of).slice(11);

/**
 * The kitchen's wall clock, "2026-03-14T19:30", as a moment. 0 for none.
 * @param {string} wall @param {string} [of] zone
 */
export const moment = momentOf;

/** "19:30" of a wall clock. @param {string} wall */
export const hour = (wall) => wall.slice(11, 16);

/**
 * A wall clock's or a date's day in words.
 * @param {string} wall @param {Intl.DateTimeFormatOptions} how
 */
const dated = (wall, how) => {
  const t = Date.parse(wall.slice(0, 10));
  return t ? new Date(t).toLocaleDateString('en-GB', { ...how, timeZone: 'UTC' }) : '';
};

/** "Saturday 14 March" of a wall clock or a date. @param {string} wall */
export const day = (wall) => dated(wall, { weekday: 'long', day: 'numeric', month: 'long' });

/** "Sat 14 Mar" of a wall clock or a date. @param {string} wall */
export const shortDay = (wall) => dated(wall, { weekday: 'short', day: 'numeric', month: 'short' });

/** "Saturday 14 March", and its year where it is not this phone's. @param {string} wall */
export const date = (wall) =>
  wall.slice(0, 4) === wallAt(now(), '').slice(0, 4) || !day(wall)
    ? day(wall)
    : day(wall) + ' ' + wall.slice(0, 4);

/** "18 covers", "1 cover". @param {number} n @param {string} one @param {string} [many] */
export const count = (n, one, many) => n + ' ' + (n === 1 ? one : (many ?? one + 's'));

/** @typedef {{ word: string, sure: boolean, may: boolean, notChecked: boolean, didYouMean: string }} Clashing */

/** How surely a plate has what guests can't have. @param {Clashing} c */
export const clashKind = (c) =>
  c.notChecked ? 'notChecked' : c.sure ? 'sure' : c.may ? 'may' : 'unknown';

/** What is written before a clash: "Not checked: nutz. Did you mean nuts? ". @param {Clashing} c */
export function clashTitle(c) {
  if (c.notChecked)
    return `Not checked: ${c.word}. ` + (c.didYouMean ? `Did you mean ${c.didYouMean}? ` : '');
  return c.sure ? '' : c.may ? 'May contain it: ' : 'Not assessed: ';
}

/**
 * A moment some hours or days ago, short.
 * @param {number} ms @param {number} at the time it is @param {string} [of] zone
 */
export function when(ms, at, of) {
  const wall = wallAt(ms, of);
  return (
    (wallAt(at, of).slice(0, 10) === wall.slice(0, 10) ? '' : shortDay(wall) + ' ') + hour(wall)
  );
}
