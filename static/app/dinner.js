// @ts-check
/**
 * The dinner: when, for how many, what goes out, and the cards in the order to make them.
 * @module
 */
import { html, signal, useComputed, useDerived } from './html.js';
import { emit } from './events.js';
import { Cost } from './cost.js';
import { Damage } from './damage.js';
import { covers, dinner, last, serve, tick, trouble, stepAt } from './state.js';
import { lazy } from './lazy.js';
import { Chosen } from './undone.js';
import { minute } from './clock.js';
import { route, to } from './router.js';
import { Done, Problems, Rim, Stepper, Top } from './parts.js';
import { Strip } from './strip.js';
import { helper } from './server.js';
import { late, nextTask, nowMinute, plan } from './plan.js';
import { settings } from './settings.js';
import { clock, count, date, day, hour, moment, span } from './words.js';
import { elsewhere, zone } from './zone.js';

/** @typedef {import('./engine.d.ts').CardView} CardView */

/**
 * Whether the faces that are seldom wanted are in sight on a phone. A wide screen has room for all.
 */
const more = signal(false);

/** The button that puts the dinner away. */
const PutAway = lazy(() => import('./shelf.js').then((m) => m.PutAway));
/** The window in which a cook says what has changed, and whether it is open. */
const Changed = lazy(() => import('./changed.js').then((m) => m.ChangedWindow));
const changing = signal(false);

/** The faces of a dinner. @param {{ at: string }} props */
export function Faces({ at }) {
  const id = route.value.id;
  const face = (
    /** @type {string} */ key,
    /** @type {string} */ href,
    /** @type {string} */ text,
  ) =>
    html`<a id=${'face-' + key} href=${href} aria-current=${at === key ? 'page' : null}>
      ${text}
    </a>`;
  const open = more.value || ['prep', 'guests', 'controls', 'labels', 'happened'].includes(at);
  return html`<nav class="faces" aria-label="This dinner">
    ${face('dinner', to.dinner(id), 'To make')}${face('plan', to.plan(id), 'Plan')}
    ${face('pass', to.pass(id), 'Pass')}${face('order', to.order(id), 'Order')}
    <button
      type="button"
      id="more-faces"
      aria-expanded=${open ? 'true' : 'false'}
      onClick=${() => {
        more.value = !more.peek();
      }}
    >
      More
    </button>
    <div class=${'rest' + (open ? ' open' : '')}>
      ${face('prep', to.prep(id), 'Prep')}${face('guests', to.guests(id), 'Guests')}
      ${face('controls', to.controls(id), 'Temperature log')}
      ${face('labels', to.labels(id), 'Labels')}
      ${face('happened', to.happened(id), 'What happened')}
    </div>
  </nav>`;
}

/** What the dinner is called, when and for how many. @param {{ at: string }} props */
export function DinnerHead({ at }) {
  const d = dinner.value;
  const left = useComputed(() => {
    const t = moment(serve.value);
    return !t ? '' : t > minute.value ? 'in ' + span(t - minute.value) : '';
  });
  return html`<div class="dinner-head">
    <h1>${d?.title ?? 'Dinner'}</h1>
    <p class="when">
      <time datetime=${serve.value}>${date(serve.value)}, <b>${hour(serve.value)}</b></time> <span
        class="soft"
      >
        ${left.value}
      </span>
    </p>
    ${
      elsewhere.value
        ? html`<p class="soft" id="elsewhere">
            Times are the kitchen's (${zone.value}): ${clock(minute.value)} there,
            ${' ' + clock(minute.value, '')} on this phone.
          </p>`
        : null
    }
    ${trouble.value ? html`<p class="trouble" role="alert">${trouble.value}</p>` : null}
    <${Damage} />
    <${Faces} at=${at} />
  </div>`;
}

/** A dinner that is not there yet. */
export function Opening() {
  return html`<p class="wait" id="opening">${trouble.value || 'Opening the dinner …'}</p>`;
}

/** The dinner's screen. */
export function DinnerScreen() {
  const d = dinner.value;
  const id = route.value.id;
  return html`
    <${Top} at="home" />
    <main id="dinner" data-dinner=${id} data-covers=${covers.value}>
      <${DinnerHead} at="dinner" />
      ${
        !d
          ? html`<${Opening} />`
          : html`
              <${Continue} />
              ${
                helper.value
                  ? null
                  : html`<p class="tools">
                      <button
                        type="button"
                        id="say-changed"
                        onClick=${() => {
                          changing.value = true;
                        }}
                      >
                        Something has changed
                      </button>
                    </p>`
              }
              ${
                changing.value
                  ? html`<${Changed}
                      close=${() => {
                        changing.value = false;
                      }}
                    />`
                  : null
              }
              <div class="two">
                <section class="batch-order" aria-label="To make, in order">
                  <h2>In the order to make them</h2>
                  <ol class="cards" id="cards-to-make">
                    ${inOrder(d.cards).map((c) => html`<${CardLine} key=${c.id} card=${c} />`)}
                  </ol>
                </section>
                <section class="goes-out" aria-label="What goes out">
                  ${
                    helper.value
                      ? html`<p><b>${count(covers.value, 'cover')}</b></p>`
                      : html`
                          <${Stepper}
                            id="covers"
                            value=${covers.value}
                            label="covers"
                            change=${(/** @type {number} */ n) => emit('covers', '', { number: n })}
                          />
                          <${Chosen} />
                          <p class="soft">Every amount follows, here and on the other phones.</p>
                        `
                  }
                  ${d.cost ? html`<${Cost} of=${d.cost} name="What is used" />` : null}
                  <h2>What goes out</h2>
                  <ol class="courses">
                    ${d.courses.map(
                      (c) => html`<li>
                        <time>${hour(c.at)}</time>
                        <div>
                          <h3>${c.name}</h3>
                          <ul>
                            ${c.plates.map(
                              (p) => html`<li>
                                <a href=${to.batch(id, p.card)}>${p.name}</a>
                                <span class="soft">
                                  ${' '}${p.covers}${p.each ? ' × ' + p.each : ''}
                                  ${p.for ? ', ' + p.for : ''}
                                </span>
                              </li>`,
                            )}
                          </ul>
                        </div>
                      </li>`,
                    )}
                  </ol>
                  ${helper.value ? null : html`<${PutAway} id=${id} />`}
                  ${
                    d.problems.length
                      ? html`<details class="found">
                          <summary>${count(d.problems.length, 'problem')} in its cards</summary>
                          <${Problems} problems=${d.problems} file=${true} />
                        </details>`
                      : null
                  }
                </section>
              </div>
            `
      }
    </main>
    <${Strip} />
  `;
}

/**
 * The cards in the order in which the plan begins them; as they need each other where there is no
 * plan. @param {CardView[]} cards
 */
function inOrder(cards) {
  /** @type {Map<string, number>} */
  const begins = new Map();
  for (const t of plan.value?.tasks ?? [])
    if (t.at && !(t.start >= (begins.get(t.at.card) ?? Infinity))) begins.set(t.at.card, t.start);
  const of = (/** @type {CardView} */ c) => begins.get(c.id) ?? Infinity;
  return begins.size ? [...cards].sort((a, b) => of(a) - of(b) || 0) : cards;
}

/** How it stands, and what is next: by the plan, else where the cook was. */
function Continue() {
  const d = dinner.value,
    v = plan.value,
    id = route.value.id;
  const by = settings.order.value === 'card' || !v || v.blocked.length ? undefined : nextTask();
  const overdue = late.value,
    now = nowMinute.value;
  const at = stepAt(last.value)?.at;
  const card = d?.cards.find((c) => c.id === at?.card);
  const steps = card?.batches[(at?.batch ?? 1) - 1]?.steps ?? [];
  const i = steps.findIndex((s) => s.key === last.value);
  const open = useDerived(
    () => steps.slice(Math.max(0, i)).find((s) => !tick(s.key).value)?.key ?? '',
    [d, last.value],
  );
  const whole = Math.min(
    covers.value,
    ...(d?.cards ?? []).map((c) => c.means?.covers ?? covers.value),
  );
  const stands = html`<p class="stands" id="stands">
    ${overdue.length ? html`<b class="late">${count(overdue.length, 'step')} late</b>` : null}
    ${
      whole < covers.value
        ? html`<b class="late">${whole} of ${covers.value} covers whole</b>`
        : null
    }
    ${v?.courses
      .filter((c) => c.late > 0)
      .map((c) => html`<b class="late">${c.name} at ${hour(c.wall)}, ${c.late} min late</b>`)}
    ${
      v?.blocked.length
        ? html`<a class="late" href=${to.plan(id)}>There is no plan: see why</a>`
        : null
    }
    ${
      v?.moves.length
        ? html`<a href=${to.plan(id)}>${count(v.moves.length, 'step')} moved</a>`
        : null
    }
  </p>`;
  if (by) {
    const p = by.at;
    return html`
      ${stands}
      <a
        class="button main wide"
        id="continue"
        href=${p ? to.step(id, p.card, p.batch, p.step) : '#/'}
      >
        <span>${v?.under && by.start <= now ? 'Now' : 'Next'}: ${by.title}</span>
        <small>
          step ${by.number}, ${
            v?.under
              ? by.start > now
                ? 'in ' + span((by.start - now) * 60_000)
                : 'since ' + hour(by.from)
              : day(by.from) + ' ' + hour(by.from)
          }
        </small>
      </a>
    `;
  }
  const to_ = stepAt(open.value)?.at;
  if (!card || !to_) return stands;
  return html`
    ${stands}
    <a class="button main wide" id="continue" href=${to.step(id, card.id, to_.batch, to_.step)}>
      <span>Go on: ${card.title}</span> <small>
        step ${steps.find((s) => s.key === open.value)?.number} of ${steps.length}
      </small>
    </a>
  `;
}

/** One card of the dinner. @param {{ card: CardView }} props */
function CardLine({ card }) {
  const keys = card.batches.flatMap((m) => m.steps.map((s) => s.key));
  return html`<li data-card=${card.id}>
    <a href=${to.batch(route.value.id, card.id)}>
      <${Rim} keys=${keys} />
      <span class="card-words">
        <b>${card.title}</b> <span class="make">
          ${card.batches.map((m) => m.make).join(' + ')}
        </span>
        <small>${card.goesInto.length ? card.goesInto.join(', ') : card.courses.join(', ')}</small>
      </span>
      <${Done} keys=${keys} />
    </a>
  </li>`;
}
