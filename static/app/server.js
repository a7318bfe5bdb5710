// @ts-check
/**
 * What this phone knows of the server and of its own place there, for the screens to show.
 * @module
 */
import { signal } from './html.js';

/** "unknown" at first, then "on" or "off". */
export const net = signal('unknown');
/**
 * Whether what the server has was fetched once, or could not be. Only then can a screen say that
 * something is missing.
 */
export const fetched = signal(false);
/** When the server last answered, Unix milliseconds; 0 never. */
export const heard = signal(0);
/** What went wrong last, in words; "" when all is well. */
export const syncTrouble = signal('');
/** How many records the server refused. */
export const parked = signal(0);
/** Counts the times that files came: then the library is read again. */
export const filesCame = signal(0);
/** Counts the times that events of any dinner came: then lists are read again. */
export const eventsCame = signal(0);
/**
 * Why the server does not let this device in, in its words; "" when it does or when that is not
 * known.
 */
export const barred = signal('');
/**
 * Whether the server takes this phone for a helper's: it ticks, weighs and notes, and changes no
 * dinner.
 */
export const helper = signal(false);
