// @ts-check
/**
 * Whether the browser will keep what the app keeps: asked for, looked at, and told when it did not.
 * @module
 */
import { signal } from './html.js';

/** "yes", "no" (it may be cleared when room runs short) or "unknown". */
export const persisted = signal('unknown');
/** Bytes in use and bytes allowed; 0 not known. */
export const room = signal({ usage: 0, quota: 0 });
/**
 * In words, when the browser has cleared what was kept, or is about to run out of room; "" when all
 * is well.
 */
export const worry = signal('');

const MARK = 'hobside-kept';

/**
 * A mark that is kept apart from the database: where it is and the database is empty, the browser
 * threw it out. Cookies outlive the clearing of other storage in most browsers; this one says
 * nothing but that.
 */
const marked = () => document.cookie.includes(MARK + '=1');
function mark() {
  document.cookie =
    MARK +
    '=1; Max-Age=34560000; Path=/; SameSite=Strict' +
    (location.protocol === 'https:' ? '; Secure' : '');
}

/**
 * Ask for the room, and look how much there is.
 * @param {boolean} fresh the database was empty when the page opened
 */
export async function startKeep(fresh) {
  if (fresh && marked())
    worry.value =
      'This browser has cleared what the app kept here. What had been sent comes back from the ' +
      'server; what had not is gone. Leave private browsing, or let the site keep data.';
  mark();
  try {
    if (await navigator.storage.persisted()) persisted.value = 'yes';
    else persisted.value = (await navigator.storage.persist()) ? 'yes' : 'no';
  } catch {
    persisted.value = 'unknown'; /* an older browser, or an address without https */
  }
  await measure();
  setInterval(measure, 5 * 60_000);
}

/** Look at the room that is left. */
export async function measure() {
  try {
    const { usage = 0, quota = 0 } = await navigator.storage.estimate();
    room.value = { usage, quota };
    if (quota && quota - usage < 20e6)
      worry.value =
        'This phone has little room left (' +
        size(quota - usage) +
        '). Free some, or taps may not be kept.';
  } catch {
    /* an older browser does not say */
  }
}

/** "12 MB", "0.4 GB". @param {number} bytes */
export const size = (bytes) =>
  bytes >= 1e9
    ? (bytes / 1e9).toFixed(1) + ' GB'
    : bytes >= 1e6
      ? Math.round(bytes / 1e6) + ' MB'
      : Math.ceil(bytes / 1e3) + ' kB';
