// @ts-check
/**
 * Asking again. What the page asks for can be refused by the network, the browser or another tab.
 * Every loop that asks again does it through Retry, for two reasons. Without a pause a refusal that
 * comes at once stops the whole page: WebKit refuses the locks of a page that is leaving, and a
 * page that asks again at once never leaves. And with pauses that do not grow, the phones of a
 * whole kitchen keep a server busy that has just come back.
 * @module
 */

/** Whether the page is leaving: it was closed, reloaded or put into the back/forward cache. */
let leaving = false;
/** @type {Set<Retry>} those with an attempt to come */
const planned = new Set();

addEventListener('pagehide', () => {
  leaving = true;
  for (const retry of planned) retry.hold();
});
addEventListener('pageshow', (event) => {
  if (!event.persisted) return; // a page that opens; else it came back from the back/forward cache
  leaving = false;
  for (const retry of [...planned]) retry.after(0);
});

/**
 * The pause before the next attempt, in milliseconds: first after one failure, twice as long after
 * each further one, at most `most`. Up to 30 % of it is random, either way, so that many phones do
 * not ask at the same moment.
 * @param {number} failures in a row @param {number} first @param {number} most
 */
export function pause(failures, first, most) {
  return Math.min(most, first * 2 ** Math.min(failures - 1, 30)) * (0.7 + Math.random() * 0.6);
}

/** One thing that is tried again until it succeeds. A page that is leaving makes no attempt. */
export class Retry {
  #attempt;
  #first;
  #most;
  #failures = 0;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;

  /**
   * @param {() => void} attempt
   * @param {{ first?: number, most?: number }} [pauses] milliseconds, see pause
   */
  constructor(attempt, { first = 1000, most = 60_000 } = {}) {
    this.#attempt = attempt;
    this.#first = first;
    this.#most = most;
  }

  /** An attempt failed: plan the next one after a longer pause. */
  failed() {
    this.#failures++;
    this.after(pause(this.#failures, this.#first, this.#most));
  }

  /** An attempt succeeded: the next failure is the first again, and no attempt is planned. */
  succeeded() {
    this.#failures = 0;
    this.cancel();
  }

  /** Plan the next attempt in place of any planned one. @param {number} ms */
  after(ms) {
    this.cancel();
    planned.add(this);
    if (leaving) return;
    this.#timer = setTimeout(() => {
      planned.delete(this);
      this.#attempt();
    }, ms);
  }

  /** Plan no attempt. */
  cancel() {
    this.hold();
    planned.delete(this);
  }

  /** Stop the clock of the planned attempt; it is made when the page comes back. */
  hold() {
    clearTimeout(this.#timer);
  }
}
