// @ts-check
/**
 * The page, from nothing to the step: read what this phone knows, paint it, then start the engine
 * and the sync. Nothing above the first paint waits for either.
 * @module
 */
import { FoodWindow } from './about.js';
import { computed, effect, html, render } from './html.js';
import { readMeta } from './db.js';
import { now, startClock } from './clock.js';
import { go, route, startRouter, to } from './router.js';
import { wearSettings } from './settings.js';
import { follow } from './follow.js';
import { absent, dinner as shown } from './state.js';
import { fillUndo } from './events.js';
import { startEngine } from './ask.js';
import { startSync } from './sync.js';
import { startLibrary } from './library.js';
import { startLeading } from './tabs.js';
import { startAlarm } from './alarm.js';
import { said, startTimers } from './timers.js';
import { startWake } from './wake.js';
import { keepGlimpse, overtake } from './glimpse.js';
import { ready, startUpdate, useNewVersion } from './update.js';
import { Stove } from './stove.js';
import { Batch } from './batch.js';
import { DinnerScreen } from './dinner.js';
import { Order } from './order.js';
import { Prep } from './preplist.js';
import { Guests } from './guests.js';
import { Controls } from './controls.js';
import { lazy } from './lazy.js';
import { startPlan } from './plan.js';
import { PlanScreen } from './planpage.js';
import { Pass } from './pass.js';
import { Home, readDinners } from './home.js';
import { Fresh } from './fresh.js';
import { Cards } from './cards.js';
import { Page } from './page.js';
import { Edit } from './edit.js';
import { Settings } from './settingspage.js';
import { Lost, NoDinner } from './lost.js';
import { fetched } from './server.js';
import { PartGuard, ScreenGuard } from './guard.js';
import { startKeep } from './keep.js';
import { EntryWindow } from './entries.js';
import { TimerWindow } from './strip.js';
import { moment } from './words.js';

/** @type {Record<string, (props: any) => any>} */
const screens = {
  home: Home,
  new: Fresh,
  dinner: DinnerScreen,
  plan: PlanScreen,
  pass: Pass,
  order: Order,
  prep: Prep,
  guests: Guests,
  controls: Controls,
  labels: lazy(() => import('./labels.js').then((m) => m.Labels)),
  happened: lazy(() => import('./happened.js').then((m) => m.Happened)),
  batch: Batch,
  step: Stove,
  cards: Cards,
  blank: Edit,
  bring: lazy(() => import('./bring.js').then((m) => m.Bring)),
  page: Page,
  edit: Edit,
  settings: Settings,
  house: lazy(() => import('./house.js').then((m) => m.House)),
  lost: Lost,
};

/** Newer version, offered everywhere but at the stove. */
function Offer() {
  if (!ready.value || route.value.at === 'step' || route.value.at === 'settings') return null;
  return html`<aside class="offer" id="update" role="status">
    A newer version is here. <button type="button" id="use-new" onClick=${useNewVersion}>
      Use it now
    </button>
  </aside>`;
}

function App() {
  const { at, id } = route.value;
  const missing = id && at !== 'new' && absent.value && fetched.value;
  const Screen = missing ? NoDinner : (screens[at] ?? Lost);
  return html`
    <${ScreenGuard}><${Screen} /><//>
    <${PartGuard}><${EntryWindow} /><//>
    <${PartGuard}><${TimerWindow} /><//>
    <${PartGuard}><${FoodWindow} /><//>
    <${PartGuard}><${Offer} /><//>
    <p class="unseen" role="alert">${said.value}</p>
  `;
}

/** Tell first.js, which watches over it. */
function cameUp() {
  document.documentElement.dataset.up = '1';
  document.querySelector('.stuck')?.remove();
  sessionStorage.removeItem('hobside-again');
}

async function start() {
  wearSettings();
  let fresh = false;
  try {
    fresh = await readMeta();
  } catch (err) {
    cameUp();
    document
      .getElementById('app')
      ?.replaceChildren(
        'This browser gives the app no room to keep anything (' +
          (err instanceof Error ? err.message : err) +
          '). Leave private browsing or free some space, then reload.',
      );
    return;
  }
  startRouter();
  if (!location.hash) await openComing();
  startClock();
  // not at every step
  const dinner = computed(() => (route.value.at === 'new' ? '' : route.value.id));
  effect(() => {
    const id = dinner.value;
    if (id) follow(id).then(() => fillUndo(id));
  });
  await overtake();
  cameUp();
  const app = /** @type {HTMLElement} */ (document.getElementById('app'));
  app.replaceChildren(); // the glimpse, or the word that it opens
  app.inert = false;
  render(html`<${App} />`, app);
  let at = route.peek();
  effect(() => {
    // a new screen starts at its top, and a screen reader hears of it
    const r = route.value;
    if (r.at !== at.at || r.card !== at.card || r.id !== at.id) {
      scrollTo(0, 0);
      setTimeout(() => {
        const h1 = /** @type {HTMLElement | null} */ (document.querySelector('main h1'));
        h1?.scrollIntoView({ block: 'nearest' });
        if (!h1 || document.activeElement !== document.body) return;
        // what had the focus is gone with its screen: the keyboard goes on from here
        h1.tabIndex = -1;
        h1.focus({ preventScroll: true });
      });
    }
    at = r;
  });
  effect(() => {
    const { card } = route.value; // a card of the dinner, else a file
    const title = shown.value?.cards?.find((c) => c.id === card)?.title;
    document.title = 'Hobside' + (title ? ': ' + title : '');
  });
  keepGlimpse();
  startEngine();
  startAlarm();
  startTimers();
  startWake();
  startPlan();
  startLeading();
  await startLibrary();
  await startSync();
  startUpdate();
  startKeep(fresh);
}

/** The first opening on this phone: the dinner that is coming, if there is one. */
async function openComing() {
  const next = (await readDinners()).find(
    (s) => !s.shelf && moment(s.serve, s.zone ?? '') > now() - 12 * 3600_000,
  );
  if (next && moment(next.serve, next.zone ?? '') < now() + 4 * 86_400_000)
    go(to.dinner(next.id), { replace: true });
}

start();
