// @ts-check
/**
 * The first screen: the dinners, and the menus to make a new one from.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { now as clock } from './clock.js';
import { db, save } from './db.js';
import { eventsCame, fetched, heard, net } from './server.js';
import { lazy } from './lazy.js';
import { library } from './library.js';
import { call, engine } from './ask.js';
import { minute } from './clock.js';
import { to } from './router.js';
import { Damage } from './damage.js';
import { Top } from './parts.js';
import { count, date, hour, moment } from './words.js';

/** @typedef {{ id: string, title: string, covers: number, serve: string, zone?: string, shelf?: number }} Line */

/** Those put away and deleted. */
const Shelved = lazy(() => import('./shelf.js').then((m) => m.Shelved));

/** The dinners this phone knows, the next to serve first; null until read. */
export const dinners = signal(/** @type {Line[] | null} */ (null));

/** Read them again. A dinner that was not opened here yet is shown by its opening event. */
export async function readDinners() {
  const d = await db();
  const [events, keys] = [
    await d.getAll('events'),
    await d.getAll('views', IDBKeyRange.bound('line:', 'line:\uffff')),
  ];
  /** @type {Map<string, Line>} */
  const lines = new Map();
  for (const ev of /** @type {import('./engine.d.ts').Event[]} */ (events)) {
    if (ev.kind !== 'open' || !ev.open) continue;
    const title = ev.text || ev.open.menu.replace(/\.md$/, '').replaceAll('-', ' ');
    const { covers, serve, zone } = ev.open;
    lines.set(ev.dinner, { id: ev.dinner, title, covers, serve, zone });
  }
  for (const line of keys) if (lines.has(line.id)) lines.set(line.id, line);
  if (engine.peek() === 'ready') await asTheyAre(lines, events);
  const now = clock() - 12 * 3600_000;
  const past = (/** @type {Line} */ l) => (moment(l.serve, l.zone ?? '') < now ? 1 : 0);
  dinners.value = [...lines.values()].sort(
    (a, b) =>
      past(a) - past(b) ||
      (past(a) ? -1 : 1) * (moment(a.serve, a.zone ?? '') - moment(b.serve, b.zone ?? '')),
  );
  return dinners.value;
}

/**
 * What has changed since a dinner was made, here or on another phone; kept for the next cold start.
 * @param {Map<string, Line>} lines
 * @param {import('./engine.d.ts').Event[]} events
 */
async function asTheyAre(lines, events) {
  const kinds = ['open', 'covers', 'serve', 'shelve', 'undo'];
  try {
    const known = await call('dinners', { events: events.filter((ev) => kinds.includes(ev.kind)) });
    for (const { dinner: id, title, covers, serve, zone, shelf } of known.dinners) {
      const was = lines.get(id);
      lines.set(id, {
        id,
        title: was?.title ?? title,
        covers,
        serve,
        zone: was?.zone || zone,
        shelf,
      });
    }
    save(['views'], (tx) => {
      for (const l of lines.values()) tx.objectStore('views').put(l, 'line:' + l.id);
    }).catch(() => {}); // a convenience: it is worked out again
  } catch {
    /* the engine stopped: the lines are as they were kept */
  }
}

/** The list's screen. */
export function Home() {
  eventsCame.value;
  useEffect(() => {
    readDinners();
  }, [eventsCame.value, engine.value]);
  const all = dinners.value?.filter((l) => !l.shelf),
    lib = library.value;
  const menus = lib?.files.filter((f) => f.kind === 'menu') ?? [];
  return html`
    <${Top} at="home" />
    <main id="home">
      <h1>Dinners</h1>
      <${Damage} />
      ${
        all?.length
          ? html`<ol class="dinners" id="dinners">
              ${all.map(
                (s) => html`<li key=${s.id}>
                  <a
                    href=${to.dinner(s.id)}
                    data-dinner=${s.id}
                    class=${moment(s.serve, s.zone ?? '') < minute.value ? 'past' : ''}
                  >
                    <span class="date"><b>${hour(s.serve)}</b><small>${date(s.serve)}</small></span>
                    <span><b>${s.title}</b><small>${count(s.covers, 'cover')}</small></span>
                  </a>
                </li>`,
              )}
            </ol>`
          : all && fetched.value
            ? html`<p class="soft" id="no-dinners">No dinner yet. Make one from a menu.</p>`
            : html`<p class="soft">Looking for dinners …</p>`
      }
      ${dinners.value?.some((l) => l.shelf) ? html`<${Shelved} />` : null}
      <section aria-labelledby="menus-h">
        <h2 id="menus-h">A new dinner, from a menu</h2>
        ${
          menus.length
            ? html`<ul class="menus" id="menus">
                ${menus.map(
                  (m) =>
                    html`<li key=${m.name}>
                      <a href=${to.fresh(m.name)} data-menu=${m.name}>
                        <b>${m.title || m.name}</b>
                        <small>
                          ${count(m.covers, 'cover')}
                          ${m.errors ? ', ' + count(m.errors, 'error') : ''}
                        </small>
                      </a>
                    </li>`,
                )}
              </ul>`
            : html`<p class="soft">
                ${
                  lib && engine.value === 'ready'
                    ? heard.value
                      ? html`
                          There is no menu in the library. Write one under <a href="#/cards">
                            Cards
                          </a>, or bring a folder of them in on the server: <b>
                            hobside import DIR
                          </b>.
                        `
                      : 'The cards have not come yet.'
                    : 'Reading the menus …'
                }
                ${net.value === 'off' ? ' No network just now; it is tried again by itself.' : ''}
              </p>`
        }
      </section>
    </main>
  `;
}
