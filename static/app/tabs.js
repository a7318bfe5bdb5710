// @ts-check
/**
 * Several tabs of one phone. They share one database; this is how one says to the others that it changed something, and
 * how just one of them at a time talks to the server: the one that was looked at last.
 * @module
 */
import { signal } from './html.js';

/** @typedef {{ events?: import('./engine.d.ts').Event[], restamped?: boolean, files?: boolean, outbox?: boolean, net?: string }} News */

/** Whether this tab is the one that talks to the server. */
export const leading = signal(false);

const channel = typeof BroadcastChannel === 'function' ? new BroadcastChannel('hobside') : null;
/** @type {((news: News) => void)[]} */
const listeners = [];

/** Say what changed, to the other tabs only. @param {News} news */
export function broadcast(news) { channel?.postMessage(news); }

/** Say that there is something to send, to this tab too: the sync listens here as well. @param {News} news */
export function tell(news) {
  broadcast(news);
  if (news.events || news.outbox) for (const fn of own) fn();
}

/** @type {(() => void)[]} */
const own = [];
/** Called when there is something to send, whichever tab made it. @param {() => void} fn */
export function onOutbox(fn) {
  own.push(fn);
  listeners.push((news) => { if (news.events || news.outbox) fn(); });
}

/** Called with what another tab says. @param {(news: News) => void} fn */
export function onNews(fn) { listeners.push(fn); }

if (channel) channel.onmessage = ({ data }) => { for (const fn of listeners) fn(data); };

/**
 * Lead whenever this tab is looked at. A hidden tab may be frozen by the browser while it holds the lock, so the visible
 * one takes it; the other waits its turn again.
 */
export function startLeading() {
  if (!navigator.locks) {
    leading.value = true;
    return;
  }
  const lead = () => {
    leading.value = true;
    return new Promise(() => {}); // held until this tab is gone or another takes it
  };
  const wait = () => navigator.locks.request('hobside-sync', lead).catch(lost);
  const take = () => { if (!leading.peek()) navigator.locks.request('hobside-sync', { steal: true }, lead).catch(lost); };
  const lost = () => {
    leading.value = false;
    wait();
  };
  document.addEventListener('visibilitychange', () => { if (!document.hidden) take(); });
  if (document.hidden) wait(); else take();
}
