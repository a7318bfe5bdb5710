// @ts-check
/**
 * The kitchen's time zone. Clock, timers and lateness are by the kitchen's clock on every phone,
 * whatever the phone's own zone is.
 * @module
 */
import { computed } from './html.js';
import { minute } from './clock.js';
import { dinner } from './state.js';

/** IANA name of the zone of the dinner on the screen; "" for the phone's own. */
export const zone = computed(() => dinner.value?.zone ?? '');

/** @type {Map<string, Intl.DateTimeFormat | null>} null for a zone that this phone does not know */
const formats = new Map();

/** @param {string} name */
function format(name) {
  let f = formats.get(name);
  if (f === undefined) {
    try {
      f = new Intl.DateTimeFormat('sv-SE', {
        timeZone: name,
        dateStyle: 'short',
        timeStyle: 'medium',
      });
    } catch {
      f = null;
    }
    formats.set(name, f);
  }
  return f;
}

/** How many minutes a zone's clock is ahead of UTC. @param {number} ms @param {string} [of] */
export function offsetAt(ms, of = zone.value) {
  const f = of ? format(of) : null;
  if (!f) return -new Date(ms).getTimezoneOffset();
  const whole = Math.floor(ms / 60_000) * 60_000;
  // Swedish writes date and time as ISO 8601 does: "2026-03-14 19:30:00"
  return (Date.parse(f.format(whole).replace(' ', 'T') + 'Z') - whole) / 60_000;
}

/** "2026-03-14T19:30", the reading of a zone's clock. @param {number} ms @param {string} [of] */
export const wallAt = (ms, of) =>
  new Date(ms + offsetAt(ms, of) * 60_000).toISOString().slice(0, 16);

/**
 * The moment of a reading of a zone's clock, 0 for none. Of a reading that comes twice it is the
 * first, and one that is skipped is read by the clock before the change, as Date reads them.
 * @param {string} wall @param {string} [of]
 */
export function momentOf(wall, of) {
  const utc = wall ? Date.parse(wall + 'Z') : NaN;
  if (!utc) return 0;
  const before = offsetAt(utc - 86_400_000, of),
    after = offsetAt(utc + 86_400_000, of);
  const first = utc - before * 60_000;
  const fits = (/** @type {number} */ ms) => wallAt(ms, of) === wall.slice(0, 16);
  if (before === after || fits(first)) return first;
  const second = utc - after * 60_000;
  return fits(second) ? second : first;
}

/** Where a zone's clocks change around a moment, to the minute. @param {number} around */
export function clockChanges(around) {
  /** @type {{ wall: string, by: number }[]} */
  const out = [];
  for (let t = around - 45 * 86_400_000; t < around + 4 * 86_400_000; t += 86_400_000) {
    let lo = t,
      hi = t + 86_400_000;
    const was = offsetAt(lo),
      is = offsetAt(hi);
    if (was === is) continue;
    while (hi - lo > 1000) {
      const mid = Math.floor((lo + hi) / 2);
      if (offsetAt(mid) === was) lo = mid;
      else hi = mid;
    }
    const change = Math.round(hi / 60_000) * 60_000;
    out.push({ wall: new Date(change + was * 60_000).toISOString().slice(0, 16), by: is - was });
  }
  return out;
}

/** Whether the phone's own clock shows another time than the kitchen's. */
export const elsewhere = computed(
  () => !!zone.value && offsetAt(minute.value) !== offsetAt(minute.value, ''),
);
