// @ts-check
/**
 * The first screen: the dinners, and the menus to make a new one from.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { now as clock } from './clock.js';
import { db } from './db.js';
import { eventsCame, fetched, heard, net } from './server.js';
import { library } from './library.js';
import { engine } from './ask.js';
import { minute } from './clock.js';
import { to } from './router.js';
import { Damage } from './damage.js';
import { Top } from './parts.js';
import { count, day, hour, moment } from './words.js';

/** @typedef {{ id: string, title: string, covers: number, serve: string }} Line */

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
    lines.set(ev.dinner, { id: ev.dinner, title, covers: ev.open.covers, serve: ev.open.serve });
  }
  for (const line of keys) if (lines.has(line.id)) lines.set(line.id, line);
  const now = clock() - 12 * 3600_000;
  const past = (/** @type {Line} */ l) => (moment(l.serve) < now ? 1 : 0);
  dinners.value = [...lines.values()].sort(
    (a, b) => past(a) - past(b) || (past(a) ? -1 : 1) * (moment(a.serve) - moment(b.serve)),
  );
  return dinners.value;
}

/** The list's screen. */
export function Home() {
  eventsCame.value;
  useEffect(() => {
    readDinners();
  }, [eventsCame.value]);
  const all = dinners.value,
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
                    class=${moment(s.serve) < minute.value ? 'past' : ''}
                  >
                    <span class="date"><b>${hour(s.serve)}</b><small>${day(s.serve)}</small></span>
                    <span><b>${s.title}</b><small>${count(s.covers, 'cover')}</small></span>
                  </a>
                </li>`,
              )}
            </ol>`
          : all && fetched.value
            ? html`<p class="soft" id="no-dinners">No dinner yet. Make one from a menu.</p>`
            : html`<p class="soft">Looking for dinners …</p>`
      }
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
