// @ts-check
/**
 * Which screen: the address after the #. Kept on disk at every turn, so that a killed tab or a
 * restarted phone comes back to the same step.
 *
 *     #/                                  dinners and menus
 *     #/new/MENU                          a new dinner
 *     #/s/ID/pass[/COURSE]                the pass
 *     #/s/ID  /plan  /prep  /order  /guests  /controls  /labels  /happened   the dinner
 *     #/s/ID/card/CARD[/BATCH]           a batch: mise and steps
 *     #/s/ID/card/CARD/BATCH/STEP        cook mode; STEP is "end" after the last
 *     #/cards  #/cards/new  #/cards/bring  the library
 *     #/card/NAME  /edit                  one card
 *     #/settings  #/house                phones that are let in, what is kept here, backup
 * @module
 */
import { signal } from './html.js';
import { meta, note } from './db.js';

/** @typedef {{ at: string, id: string, card: string, batch: number, step: string }} Route */

/** The screens of a dinner that have a word of their own. */
const faces = ['plan', 'prep', 'order', 'guests', 'controls', 'labels', 'happened'];

/**
 * The screen that an address leads to; "lost" for one that leads nowhere.
 * @param {string} hash
 * @returns {Route}
 */
export function parse(hash) {
  const words = hash.replace(/^#\/?/, '').split('/');
  while (words.at(-1) === '') words.pop(); // a stroke at the end says nothing
  const [first = '', ...rest] = words.map(decode);
  const route = { at: 'lost', id: '', card: '', batch: 1, step: '' };
  const [name = '', more, ...beyond] = rest;
  if (first === 's') return ofDinner(route, rest);
  if (beyond.length) return route;
  switch (first) {
    case '':
    case 'settings':
    case 'house':
      return rest.length ? route : { ...route, at: first || 'home' };
    case 'new':
      return more === undefined && name ? { ...route, at: 'new', id: name } : route;
    case 'cards':
      if (rest.length === 0) return { ...route, at: 'cards' };
      if (more !== undefined || (name !== 'new' && name !== 'bring')) return route;
      return { ...route, at: name === 'new' ? 'blank' : 'bring' };
    case 'card':
      if (!name || (more !== undefined && more !== 'edit')) return route;
      return { ...route, at: more ? 'edit' : 'page', card: name };
  }
  return route;
}

/**
 * The screen of a dinner: its name, then the words after it.
 * @param {Route} lost
 * @param {string[]} words
 * @returns {Route}
 */
function ofDinner(lost, [id = '', face, ...rest]) {
  const route = { ...lost, id };
  const whole = (/** @type {string | undefined} */ n) => n === undefined || /^[1-9]\d*$/.test(n);
  if (!id) return route;
  if (face === undefined) return { ...route, at: 'dinner' };
  if (faces.includes(face)) return rest.length ? route : { ...route, at: face };
  if (face === 'pass') {
    const [course, ...more] = rest;
    return more.length || !whole(course) ? route : { ...route, at: 'pass', step: course ?? '' };
  }
  const [card, batch, step, ...more] = rest;
  if (face !== 'card' || !card || !whole(batch) || more.length) return route;
  if (step !== 'end' && !whole(step)) return route;
  return {
    ...route,
    at: step ? 'step' : 'batch',
    card,
    batch: Number(batch ?? 1),
    step: step ?? '',
  };
}

/** A word of an address. @param {string} word */
function decode(word) {
  try {
    return decodeURIComponent(word);
  } catch {
    return word;
  }
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

/** The address that go() went to before the browser was told, and the address before it. */
let untold = '',
  before = '';

/** Tell the browser where go() went, and keep it. A browser that has moved meanwhile is left there. */
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
  if (location.search.startsWith('?shared-')) go('#/cards/bring', { replace: true });
  if (!location.hash && meta.where && meta.where !== '#/') go(meta.where, { replace: true });
}

/** Links within the app, as one word each. */
const word = encodeURIComponent;
export const to = {
  /** @param {string} id */
  dinner: (id) => '#/s/' + word(id),
  /** @param {string} id */
  prep: (id) => '#/s/' + word(id) + '/prep',
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
  happened: (id) => '#/s/' + word(id) + '/happened',
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
