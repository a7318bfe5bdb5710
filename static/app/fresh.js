// @ts-check
/**
 * A new dinner from a menu: for how many, on which day, at what time, in which kitchen, for whom.
 * Works with no network: it is an event like any other.
 * @module
 */
import { html, signal, useEffect } from './html.js';
import { now } from './clock.js';
import { newID } from './db.js';
import { emit } from './events.js';
import { go, route, to } from './router.js';
import { library, pins } from './library.js';
import { NotFound } from './lost.js';
import { GuestRows, linesOf, rowsOf } from './guestrows.js';
import { Stepper, Top } from './parts.js';

/**
 * Kitchen and guests are the menu's, "" and null, until the cook changes them: the list on the
 * screen may be old.
 */
const none = {
  menu: '',
  kitchen: '',
  covers: 0,
  date: '',
  time: '',
  name: '',
  guests: /** @type {import('./guestrows.js').Row[] | null} */ (null),
};
const form = signal(none);
const trouble = signal('');

/** The next Saturday from a day, as the date field wants it. */
function saturday() {
  const d = new Date(now());
  d.setDate(d.getDate() + ((6 - d.getDay() + 7) % 7 || 7));
  return (
    d.getFullYear() +
    '-' +
    String(d.getMonth() + 1).padStart(2, '0') +
    '-' +
    String(d.getDate()).padStart(2, '0')
  );
}

/** The new dinner's screen. */
export function Fresh() {
  const menu = library.value?.files.find((f) => f.name === route.value.id);
  useEffect(() => {
    if (!menu || form.peek().menu === menu.name) return;
    const [date, time] = menu.serve.split('T');
    const past = !date || new Date(menu.serve).getTime() < now();
    form.value = {
      ...none,
      menu: menu.name,
      covers: menu.covers || 1,
      date: past ? saturday() : date,
      time: (time ?? '19:30').slice(0, 5),
    };
  }, [menu]);
  const f = form.value;
  const kitchen = f.kitchen || (menu?.kitchen ?? '');
  const kitchens = (library.value?.files ?? []).filter((k) => k.kind === 'kitchen');
  const set = (/** @type {Partial<typeof f>} */ some) => {
    form.value = { ...form.peek(), ...some };
  };
  const make = async (/** @type {Event} */ e) => {
    e.preventDefault();
    if (!menu) return;
    try {
      const files = await pins([
        ...(menu.needs.length ? menu.needs : [menu.name]).filter((name) => name !== menu.kitchen),
        ...(kitchen ? [kitchen] : []),
      ]);
      const guests = f.guests && (await linesOf(f.guests));
      const id = newID();
      await emit(
        'open',
        '',
        {
          ...(f.name ? { text: f.name } : {}),
          open: {
            menu: menu.name,
            kitchen,
            covers: f.covers,
            serve: f.date + 'T' + f.time,
            zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
            files,
          },
        },
        id,
      );
      if (guests !== null) await emit('guests', '', { text: guests }, id);
      go(to.dinner(id));
      form.value = none;
    } catch (err) {
      trouble.value = 'The dinner could not be kept: ' + (err instanceof Error ? err.message : err);
    }
  };
  return html`
    <${Top} at="home" />
    <main id="fresh" class="narrow">
      ${menu ? html`<h1>${menu.title}</h1>` : null}
      ${
        !menu
          ? html`<${NotFound}
              what="This menu is not on this phone."
              why="It comes when the server is reached, if the server has it."
            />`
          : html`<form onSubmit=${make} class="form">
              <${Stepper}
                id="new-covers"
                value=${f.covers}
                label="covers"
                change=${(/** @type {number} */ covers) => set({ covers })}
              />
              <div class="row">
                <label>
                  Day
                  <input
                    type="date"
                    id="new-date"
                    required
                    value=${f.date}
                    onInput=${(/** @type {any} */ e) => set({ date: e.target.value })}
                  />
                </label>
                <label>
                  First course
                  <input
                    type="time"
                    id="new-time"
                    required
                    value=${f.time}
                    onInput=${(/** @type {any} */ e) => set({ time: e.target.value })}
                  />
                </label>
              </div>
              <label>
                Called <small>(or as the menu is)</small>
                <input
                  type="text"
                  id="new-name"
                  maxlength="80"
                  value=${f.name}
                  placeholder=${menu.title}
                  onInput=${(/** @type {any} */ e) => set({ name: e.target.value })}
                />
              </label>
              ${
                kitchens.length > 1
                  ? html`<label>
                      Kitchen
                      <select
                        id="new-kitchen"
                        value=${kitchen}
                        onChange=${(/** @type {any} */ e) => set({ kitchen: e.target.value })}
                      >
                        ${kitchen ? null : html`<option value="">which?</option>`}
                        ${kitchens.map(
                          (k) =>
                            html`<option value=${k.name} selected=${k.name === kitchen}>
                              ${k.title}
                            </option>`,
                        )}
                      </select>
                    </label>`
                  : null
              }
              <${GuestRows}
                rows=${f.guests ?? rowsOf(menu.guests ?? [])}
                change=${(/** @type {import('./guestrows.js').Row[]} */ guests) => set({ guests })}
              />
              ${
                menu.errors
                  ? html`<p class="trouble">
                      The menu or its cards have errors; the dinner shows them.
                    </p>`
                  : null
              }
              ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
              <button type="submit" class="main wide" id="make-dinner">Make this dinner</button>
            </form>`
      }
    </main>
  `;
}
