// @ts-check
/**
 * Which screen: the address after the #. Kept on disk at every turn, so that a killed tab or a
 * restarted phone comes back to the same step.
 *
 *     #/                                  dinners and menus
 *     #/new/MENU                          a new dinner
 *     #/s/ID/pass[/COURSE]                the pass
 *     #/s/ID  /plan  /order  /guests  /controls  /labels   the dinner
 *     #/s/ID/card/CARD[/BATCH]           a batch: mise and steps
 *     #/s/ID/card/CARD/BATCH/STEP        cook mode; STEP is "end" after the last
 *     #/cards  #/cards/new                the library
 *     #/card/NAME  /edit                  one card
 *     #/settings  #/house                phones that are let in, what is kept here, backup
 * @module
 */
import { signal } from './html.js';
import { meta, note } from './db.js';

/** @typedef {{ at: string, id: string, card: string, batch: number, step: string }} Route */

/** @param {string} hash @returns {Route} */
export function parse(hash) {
  const p = hash
    .replace(/^#\/?/, '')
    .split('/')
    .map((w) => {
      try {
        return decodeURIComponent(w);
      } catch {
        return w;
      }
    });
  const route = { at: 'home', id: '', card: '', batch: 1, step: '' };
  switch (p[0]) {
    case 'new':
      return { ...route, at: 'new', id: p[1] ?? '' };
    case 'settings':
      return { ...route, at: 'settings' };
    case 'house':
      return { ...route, at: 'house' };
    case 'cards':
      return { ...route, at: p[1] === 'new' ? 'blank' : 'cards' };
    case 'card':
      return { ...route, at: p[2] === 'edit' ? 'edit' : 'page', card: p[1] ?? '' };
    case 's':
      route.id = p[1] ?? '';
      if (['plan', 'order', 'guests', 'controls', 'labels'].includes(p[2]))
        return { ...route, at: p[2] };
      if (p[2] === 'pass') return { ...route, at: 'pass', step: p[3] ?? '' };
      if (p[2] !== 'card') return { ...route, at: 'dinner' };
      route.card = p[3] ?? '';
      route.batch = Number(p[4]) || 1;
      route.step = p[5] ?? '';
      return { ...route, at: route.step ? 'step' : 'batch' };
  }
  return route;
}

/** Where the cook is. */
export const route = signal(parse(location.hash));

/** @param {string} hash */
function turn(hash) {
  const next = parse(hash);
  if (JSON.stringify(next) !== JSON.stringify(route.peek())) route.value = next;
}

/** Keep where the cook is. */
function remember() {
  const hash = location.hash || '#/';
  // a phone that can't write says so at the next tap
  if (hash !== meta.where) note('where', hash).catch(() => {});
}

function arrive() {
  settle();
  turn(location.hash);
  remember();
}

/** Where go went and the browser has not been told yet, and where it was then. */
let untold = '',
  before = '';

/** Tell the browser, and keep it. One that has moved on by itself meanwhile is left where it is. */
function settle() {
  if (!untold) return;
  if (location.hash === before) history.pushState(null, '', untold);
  untold = '';
  remember();
}

/**
 * Go to a screen. Painted in this very frame: a hashchange would come a task later, and the
 * browser's own book-keeping takes as long as the painting, so it is told after.
 * @param {string} hash @param {{ replace?: boolean }} [how]
 */
export function go(hash, how) {
  settle();
  if (how?.replace) {
    history.replaceState(null, '', hash);
    remember();
  } else if (hash !== location.hash) {
    untold = hash;
    before = location.hash;
    if (document.hidden) settle();
    else requestAnimationFrame(() => setTimeout(settle));
  }
  turn(hash);
}

/** Follow the browser's own moves, and open where the cook was when the address says nothing. */
export function startRouter() {
  addEventListener('popstate', arrive);
  addEventListener('hashchange', arrive);
  document.addEventListener('visibilitychange', settle);
  if (!location.hash && meta.where && meta.where !== '#/') go(meta.where, { replace: true });
}

/** Links within the app, as one word each. */
const word = encodeURIComponent;
export const to = {
  /** @param {string} id */
  dinner: (id) => '#/s/' + word(id),
  /** @param {string} id */
  order: (id) => '#/s/' + word(id) + '/order',
  /** @param {string} id @param {number} [course] */
  pass: (id, course) => '#/s/' + word(id) + '/pass' + (course ? '/' + course : ''),
  /** @param {string} id */
  plan: (id) => '#/s/' + word(id) + '/plan',
  /** @param {string} id */
  guests: (id) => '#/s/' + word(id) + '/guests',
  /** @param {string} id */
  controls: (id) => '#/s/' + word(id) + '/controls',
  /** @param {string} id */
  labels: (id) => '#/s/' + word(id) + '/labels',
  /** @param {string} id @param {string} card @param {number} [batch] */
  batch: (id, card, batch) =>
    '#/s/' + word(id) + '/card/' + word(card) + (batch && batch > 1 ? '/' + batch : ''),
  /** @param {string} id @param {string} card @param {number} batch @param {number | 'end'} step */
  step: (id, card, batch, step) =>
    '#/s/' + word(id) + '/card/' + word(card) + '/' + batch + '/' + step,
  /** @param {string} name */
  card: (name) => '#/card/' + word(name),
  /** @param {string} name */
  edit: (name) => '#/card/' + word(name) + '/edit',
  /** @param {string} menu */
  fresh: (menu) => '#/new/' + word(menu),
};
