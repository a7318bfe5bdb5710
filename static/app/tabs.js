// @ts-check
/**
 * Several tabs of one phone. They share one database; this is how one says to the others that it
 * changed something, and how just one of them at a time talks to the server: the one that was
 * looked at last.
 * @module
 */
import { signal } from './html.js';
import { Retry } from './retry.js';

/**
 * @typedef {{
 *   events?: import('./engine.d.ts').Event[], restamped?: boolean, files?: boolean,
 *   outbox?: boolean, net?: string,
 * }} News
 */

/** Whether this tab is the one that talks to the server. */
export const leading = signal(false);

const channel = typeof BroadcastChannel === 'function' ? new BroadcastChannel('hobside') : null;
/** @type {((news: News) => void)[]} */
const listeners = [];

/** Say what changed, to the other tabs only. @param {News} news */
export function broadcast(news) {
  channel?.postMessage(news);
}

/**
 * Say that there is something to send, to this tab too: the sync listens here as well.
 * @param {News} news
 */
export function tell(news) {
  broadcast(news);
  if (news.events || news.outbox) for (const fn of own) fn();
}

/** @type {(() => void)[]} */
const own = [];
/** Called when there is something to send, whichever tab made it. @param {() => void} fn */
export function onOutbox(fn) {
  own.push(fn);
  listeners.push((news) => {
    if (news.events || news.outbox) fn();
  });
}

/** Called with what another tab says. @param {(news: News) => void} fn */
export function onNews(fn) {
  listeners.push(fn);
}

if (channel)
  channel.onmessage = ({ data }) => {
    for (const fn of listeners) fn(data);
  };

/**
 * Lead whenever this tab is looked at. A hidden tab may be frozen by the browser while it holds the
 * lock, so the visible one takes it; the other waits its turn again. A tab that is leaving gives
 * the lock up, and asks for it again when the browser brings the page back.
 */
export function startLeading() {
  if (!navigator.locks) {
    leading.value = true;
    return;
  }
  /** @type {AbortController | null} the request of this tab; there is one at a time */
  let asked = null;
  let release = () => {};
  const again = new Retry(() => ask(false));

  const ask = (/** @type {boolean} */ steal) => {
    asked?.abort(); // takes one that still waits out of the queue
    const mine = (asked = new AbortController());
    const lead = () => {
      if (asked !== mine) return undefined;
      again.succeeded();
      leading.value = true;
      return new Promise((done) => {
        release = () => done(undefined);
      }); // held until another tab takes it or this one leaves
    };
    const lost = () => {
      if (asked !== mine) return;
      leading.value = false;
      again.failed();
    };
    // The standard allows no signal with steal.
    navigator.locks
      .request('hobside-sync', steal ? { steal } : { signal: mine.signal }, lead)
      .catch(lost);
  };
  const begin = () => {
    if (!leading.peek()) ask(!document.hidden);
  };
  const leave = () => {
    again.cancel();
    asked?.abort();
    asked = null;
    release();
    leading.value = false;
  };

  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) begin();
  });
  addEventListener('pagehide', leave);
  addEventListener('pageshow', (event) => {
    if (event.persisted) begin();
  });
  begin();
}
