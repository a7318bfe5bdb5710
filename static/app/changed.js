// @ts-check
/**
 * The window in which a cook says what has changed: people, equipment, hours, courses, guests. What
 * it would change is shown before it is taken; undo takes it back.
 * @module
 */
import { html, useEffect, useSignal } from './html.js';
import { ask, read } from './ask.js';
import { now } from './clock.js';
import { emit } from './events.js';
import { covers, dinnerID, folded, serve } from './state.js';
import { Dialog, Stepper } from './parts.js';
import { hour, moment } from './words.js';
import { clockChanges } from './zone.js';

/** @typedef {import('./engine.d.ts').Wish} Wish */
/** @typedef {import('./engine.d.ts').Scene} Scene */
/** @typedef {import('./engine.d.ts').Preview} Preview */
/** @typedef {import('./engine.d.ts').Draft} Draft */
/**
 * What a cook may say, and which fields it has.
 * @typedef {{
 *   title: string, wish: Wish, at?: boolean, until?: boolean, minutes?: number[], count?: string,
 *   words?: string,
 * }} Saying
 */

const MINUTES = [5, 10, 15, 20, 30, 45, 60];

/** What every question to the engine has. */
const when = () => {
  const serveAt = moment(serve.peek());
  return {
    dinner: dinnerID.peek(),
    serveAt,
    now: now(),
    clockChanges: clockChanges(serveAt),
    fresh: false,
    full: false,
  };
};

/** Take what an answer offers. @param {Draft[]} events */
const take = (events) => {
  for (const d of events)
    emit(d.kind, '', {
      ...(d.number ? { number: d.number } : {}),
      ...(d.text ? { text: d.text } : {}),
      ...(d.do ? { do: d.do } : {}),
    });
};

/** @param {{ close: () => void }} props */
export function ChangedWindow({ close }) {
  const scene = useSignal(/** @type {Scene | null} */ (null));
  const trouble = useSignal('');
  const saying = useSignal(/** @type {Saying | null} */ (null));
  const known = folded.value;
  useEffect(() => {
    ask('scene', when()).then(
      (json) => {
        scene.value = read(json);
      },
      (err) => {
        trouble.value = String(err.message ?? err);
      },
    );
  }, [known]);
  const pick = (/** @type {Saying | null} */ s) => {
    saying.value = s;
  };
  return html`<${Dialog}
    id="changed"
    title=${saying.value?.title ?? 'What has changed?'}
    close=${close}
  >
    ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
    ${
      saying.value
        ? html`<${Say} of=${saying.value} back=${() => pick(null)} close=${close} />`
        : scene.value
          ? html`<${Choices} scene=${scene.value} pick=${pick} />`
          : html`<p class="wait">Looking who and what is there …</p>`
    }
  <//>`;
}

/** @param {{ scene: Scene, pick: (s: Saying) => void }} props */
function Choices({ scene, pick }) {
  const button = (/** @type {string} */ text, /** @type {Saying} */ s) =>
    html`<button type="button" data-say=${s.wish.what} onClick=${() => pick(s)}>${text}</button>`;
  const line = (
    /** @type {string} */ name,
    /** @type {string} */ words,
    /** @type {any} */ buttons,
  ) =>
    html`<li class="row" data-of=${name}>
      <span><b>${name}</b> <span class="soft">${words}</span></span> ${buttons}
    </li>`;
  return html`
    <h3>People</h3>
    <ul class="plain">
      ${scene.cooks.map((c) =>
        line(
          c.name,
          c.words,
          c.away
            ? button('Comes', {
                title: c.name + ' comes',
                wish: { what: 'comes', cook: c.name },
                at: true,
              })
            : html`
                ${button('Goes', {
                  title: c.name + ' goes',
                  wish: { what: 'goes', cook: c.name },
                  at: true,
                  until: true,
                })}
                ${button('Comes later', {
                  title: c.name + ' comes later',
                  wish: { what: 'comes', cook: c.name },
                  at: true,
                })}
              `,
        ),
      )}
      ${line(
        'A helper',
        '',
        button('Comes', {
          title: 'A helper comes',
          wish: { what: 'joins' },
          at: true,
          until: true,
          words: 'Name',
        }),
      )}
    </ul>
    <h3>Equipment</h3>
    <ul class="plain">
      ${scene.things.map((t) =>
        line(
          t.call,
          t.words || (t.count > 1 ? String(t.count) : ''),
          html`
            ${
              t.out < t.count
                ? button('Out', {
                    title: 'Out: ' + t.call,
                    wish: { what: 'out', thing: t.name, count: t.out + 1 },
                    at: true,
                    until: true,
                    count: t.count > 1 ? 'out' : '',
                  })
                : null
            }
            ${
              t.later
                ? button('Back', {
                    title: 'There again: ' + t.call,
                    wish: { what: 'back', thing: t.name },
                    at: true,
                  })
                : null
            }
            ${button('One more', {
              title: 'One more ' + t.call,
              wish: { what: 'borrowed', thing: t.name, count: 1 },
              at: true,
              until: true,
              count: 'more',
            })}
          `,
        ),
      )}
    </ul>
    <h3>Times</h3>
    <ul class="plain">
      ${line(
        'All of service',
        hour(serve.value),
        html`
          ${button('Later', {
            title: 'All of service is later',
            wish: { what: 'late', minutes: 15 },
            minutes: MINUTES,
          })}
          ${button('I don’t know', { title: 'How late will it be?', wish: { what: 'late' } })}
          ${button('Earlier', {
            title: 'All of service is earlier',
            wish: { what: 'late', minutes: -15 },
            minutes: MINUTES.map((m) => -m),
          })}
        `,
      )}
      ${scene.courses.map((c) =>
        line(
          c.name,
          c.struck ? 'struck' : hour(c.wall),
          c.struck
            ? button('Serve it', {
                title: c.name + ' is served after all',
                wish: { what: 'serve', course: c.course },
              })
            : html`
                ${button('Move', {
                  title: c.name + ' goes out at another time',
                  wish: { what: 'moves', course: c.course, minutes: 15 },
                  minutes: [-30, -15, ...MINUTES],
                })}
                ${swap(c, scene, button)}
                ${button('Strike', {
                  title: c.name + ' is not served',
                  wish: { what: 'strike', course: c.course },
                })}
              `,
        ),
      )}
      ${line(
        'Kitchen',
        scene.opens ? hour(scene.opens) + '–' + hour(scene.closes) : '',
        html`
          ${
            scene.open
              ? null
              : button('Opens at', {
                  title: 'The kitchen opens at',
                  wish: { what: 'opens', at: hour(scene.opens) },
                  at: true,
                })
          }
          ${button('Closes at', {
            title: 'The kitchen closes at',
            wish: { what: 'closes', at: hour(scene.closes) },
            at: true,
          })}
        `,
      )}
    </ul>
    <h3>Guests</h3>
    <ul class="plain">
      ${line(
        'Covers',
        String(covers.value),
        button('Change', {
          title: 'Covers',
          wish: { what: 'covers', count: covers.value },
          count: 'covers',
        }),
      )}
      ${line(
        'An allergy',
        '',
        button('Add', {
          title: 'Guests who can’t have something',
          wish: { what: 'guest', count: 1, words: '' },
          count: 'covers',
          words: 'Without',
        }),
      )}
    </ul>
    ${
      scene.said.length
        ? html`
            <h3>Said so far</h3>
            <ul class="plain" id="said">
              ${scene.said.map(
                (s) =>
                  html`<li class="row" key=${s.event}>
                    <span>
                      ${s.text}
                      ${s.who ? html` <span class="soft">${s.who}</span>` : null}
                    </span>
                    <button
                      type="button"
                      data-unsay=${s.event}
                      aria-label=${'Undo: ' + s.text}
                      onClick=${() => emit('undo', '', { undo: s.event })}
                    >
                      Undo
                    </button>
                  </li>`,
              )}
            </ul>
          `
        : null
    }
  `;
}

/**
 * The button that lets a course change places with the next one that is served.
 * @param {import('./engine.d.ts').CourseThere} c @param {Scene} scene
 * @param {(text: string, s: Saying) => any} button
 */
function swap(c, scene, button) {
  const other = scene.courses.find((o) => !o.struck && o.wall > c.wall);
  return other
    ? button('After ' + other.name, {
        title: c.name + ' after ' + other.name,
        wish: { what: 'swap', course: c.course, with: other.course },
      })
    : null;
}

/** One thing that a cook says, with what follows. @param {{ of: Saying, back: () => void, close: () => void }} props */
function Say({ of, back, close }) {
  const wish = useSignal(of.wish);
  const answer = useSignal(/** @type {Preview | null} */ (null));
  const w = wish.value;
  const known = folded.value;
  useEffect(() => {
    let old = false;
    answer.value = null;
    ask('change', { ...when(), wish: w }).then(
      (json) => {
        if (!old) answer.value = read(json);
      },
      (err) => {
        if (!old)
          answer.value = /** @type {any} */ ({
            trouble: String(err.message ?? err),
            events: [],
            courses: [],
            steps: [],
            amounts: [],
            clashes: [],
          });
      },
    );
    return () => {
      old = true;
    };
  }, [JSON.stringify(w), known]);
  const set = (/** @type {Partial<Wish>} */ part) => {
    wish.value = { ...wish.peek(), ...part };
  };
  const clock = (/** @type {'at' | 'until'} */ key, /** @type {string} */ none) =>
    html`<label>
      ${none}
      <input
        type="time"
        id=${'say-' + key}
        value=${w[key] ?? ''}
        onChange=${(/** @type {any} */ e) => set({ [key]: e.target.value })}
      />
    </label>`;
  const a = answer.value;
  return html`
    <div class="row">
      ${of.at ? clock('at', w.what === 'opens' || w.what === 'closes' ? 'At' : 'At, or now') : null}
      ${of.until ? clock('until', 'Until, or to the end') : null}
      ${
        of.words
          ? html`<label>
              ${of.words}
              <input
                type="text"
                id="say-words"
                value=${w.words ?? ''}
                placeholder=${w.what === 'guest' ? 'nuts' : ''}
                onChange=${(/** @type {any} */ e) => set({ words: e.target.value })}
              />
            </label>`
          : null
      }
    </div>
    ${
      of.minutes
        ? html`<div class="row" role="group" aria-label="Minutes">
            ${of.minutes.map(
              (n) =>
                html`<button
                  type="button"
                  data-minutes=${n}
                  aria-pressed=${w.minutes === n ? 'true' : 'false'}
                  onClick=${() => set({ minutes: n })}
                >
                  ${n > 0 ? '+' + n : '−' + -n}
                </button>`,
            )}
          </div>`
        : null
    }
    ${
      of.count
        ? html`<${Stepper}
            id="say-count"
            value=${w.count ?? 0}
            label=${of.count === 'covers' && w.count === 1 ? 'cover' : of.count}
            min=${w.what === 'covers' ? 0 : 1}
            change=${(/** @type {number} */ n) => set({ count: n })}
          />`
        : null
    }
    <div id="follows" aria-live="polite" data-ready=${a ? '1' : '0'}>
      ${a ? html`<${Follows} a=${a} />` : html`<p class="wait">Working out what follows …</p>`}
    </div>
    <div class="row">
      <button
        type="button"
        class="main"
        id="take-change"
        disabled=${!a || !!a.trouble || a.events.length === 0}
        onClick=${() => {
          take(a?.events ?? []);
          close();
        }}
      >
        Use it
      </button>
      <button type="button" id="say-other" onClick=${back}>Back</button>
    </div>
  `;
}

/** What a change would do. @param {{ a: Preview }} props */
function Follows({ a }) {
  if (a.trouble) return html`<p class="trouble" role="alert">${a.trouble}</p>`;
  const list = (/** @type {string} */ head, /** @type {string[]} */ lines) =>
    lines.length
      ? html`<h3>${head}</h3><ul class="plain">${lines.map((l) => html`<li>${l}</li>`)}</ul>`
      : null;
  return html`
    <ul class=${'plain' + (a.blocked ? ' trouble' : '')} id="follow-courses">
      ${a.courses.map((l) => html`<li><b>${l}</b></li>`)}
    </ul>
    ${
      a.clashes.length
        ? html`<ul class="plain trouble" id="follow-clashes" role="alert">
            ${a.clashes.map((l) => html`<li>${l}</li>`)}
          </ul>`
        : null
    }
    ${list('Amounts', a.amounts)} ${list('Steps', a.steps)}
  `;
}
