// @ts-check
/**
 * Times and counts as words. Only for the eye: what must be right is worked out by the engine.
 * @module
 */

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

/** "19:30" of a moment. @param {number} ms */
export const clock = (ms) => {
  const d = new Date(ms);
  return two(d.getHours()) + ':' + two(d.getMinutes());
};

/** The kitchen's wall clock, "2026-03-14T19:30", as a moment. 0 for none. @param {string} wall */
export const moment = (wall) => (wall ? new Date(wall).getTime() || 0 : 0);

/** "19:30" of a wall clock. @param {string} wall */
export const hour = (wall) => wall.slice(11, 16);

/** "Saturday 14 March" of a wall clock or a date. @param {string} wall */
export function day(wall) {
  const t = moment(wall.length === 10 ? wall + 'T12:00' : wall);
  return t
    ? new Date(t).toLocaleDateString('en-GB', { weekday: 'long', day: 'numeric', month: 'long' })
    : '';
}

/** "Sat 14 Mar" of a wall clock or a date. @param {string} wall */
export function shortDay(wall) {
  const t = moment(wall.length === 10 ? wall + 'T12:00' : wall);
  return t
    ? new Date(t).toLocaleDateString('en-GB', { weekday: 'short', day: 'numeric', month: 'short' })
    : '';
}

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

/** A moment some hours or days ago, short. @param {number} ms @param {number} now */
export function when(ms, now) {
  const d = new Date(ms);
  return new Date(now).toDateString() === d.toDateString()
    ? clock(ms)
    : d.toLocaleDateString('en-GB', { weekday: 'short', day: 'numeric', month: 'short' }) +
        ' ' +
        clock(ms);
}
