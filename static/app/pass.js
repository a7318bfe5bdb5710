// @ts-check
/**
 * The pass: the course that goes out next, what has to be ready, what goes on one plate, and a mark
 * for every plate.
 * @module
 */
import { html, useDerived } from './html.js';
import { dinner, tick } from './state.js';
import { emit } from './events.js';
import { minute } from './clock.js';
import { at, plan } from './plan.js';
import { go, route, to } from './router.js';
import { Top } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { Strip } from './strip.js';
import { clashKind, clashTitle, clock, count, hour, moment, span } from './words.js';

/** @typedef {import('./engine.d.ts').DinnerView} DinnerView */
/** @typedef {import('./engine.d.ts').PlateView} PlateView */

/** How many plates of a course have gone. @param {DinnerView} d @param {number} i */
const gone = (d, i) =>
  d.courses[i].plates.flatMap((p) => p.keys).filter((key) => tick(key).value).length;

/** @param {DinnerView} d @param {number} i */
const all = (d, i) => d.courses[i].plates.reduce((n, p) => n + p.covers, 0);

/** The pass's screen. */
export function Pass() {
  const d = dinner.value;
  return html`
    <${Top} at="home" />
    <main id="pass">
      <${DinnerHead} at="pass" />
      ${!d ? html`<${Opening} />` : html`<${Courses} d=${d} />`}
    </main>
    <${Strip} />
  `;
}

/** @param {{ d: DinnerView }} props */
function Courses({ d }) {
  const asked = Number(route.value.step) - 1;
  const next = d.courses.findIndex((_, i) => gone(d, i) < all(d, i));
  const i = d.courses[asked] ? asked : Math.max(0, next);
  if (!d.courses[i]) return html`<p>This menu has no courses.</p>`;
  return html`
    <nav class="pass-courses" aria-label="Courses">
      ${d.courses.map(
        (c, k) => html`<a
          href=${to.pass(route.value.id, k + 1)}
          aria-current=${k === i ? 'true' : null}
          data-course=${k + 1}
          onClick=${(/** @type {Event} */ e) => {
            e.preventDefault();
            go(to.pass(route.value.id, k + 1), { replace: true });
          }}
        >
          <b>${c.name}</b>
          <small>${hour(c.at)}${gone(d, k) === all(d, k) ? ', gone' : ''}</small>
        </a>`,
      )}
    </nav>
    <${Course} key=${i} d=${d} i=${i} />
  `;
}

/** @param {{ d: DinnerView, i: number }} props */
function Course({ d, i }) {
  const c = d.courses[i];
  const due = useDerived(() => {
    const p = plan.value?.courses[i],
      t = p ? at(p.at) : moment(c.at);
    const off = t - minute.value;
    return {
      t,
      late: p?.late ?? 0,
      text: Math.abs(off) > 36 * 3600_000 ? '' : off >= 0 ? 'in ' + span(off) : span(off) + ' ago',
    };
  }, [c]);
  const left = all(d, i) - gone(d, i);
  return html`<section class="pass-course" aria-label=${c.name}>
    <p class="pass-when">
      <b>${clock(due.value.t)}</b> <span class=${due.value.late ? 'late' : 'soft'}>
        ${due.value.text}${due.value.late ? ', ' + due.value.late + ' min late' : ''}
      </span>
      <span class="soft">${left ? count(left, 'plate') + ' to go' : 'all plates gone'}</span>
    </p>
    <${Before} i=${i} />
    ${c.plates.map((p, j) => html`<${Plate} key=${p.card} d=${d} i=${i} j=${j} p=${p} />`)}
  </section>`;
}

/**
 * The last steps before it goes out, loads through the fryer among them, in order.
 * @param {{ i: number }} props
 */
function Before({ i }) {
  const v = plan.value,
    c = v?.courses[i];
  if (!v || !c) return null;
  const from = Math.max(c.at - 60, i > 0 ? v.courses[i - 1].at : -1e9);
  const tasks = v.tasks.filter((t) => t.start >= from && t.start < c.at && t.end <= c.at + 10);
  if (tasks.length === 0) return null;
  return html`
    <h2>Before it goes out</h2>
    <ol class="tasks">
      ${tasks.map((t) => {
        const p = t.at;
        return html`<li class=${'task' + (tick(t.key).value ? ' done' : '')} data-task=${t.key}>
          <a href=${p ? to.step(route.value.id, p.card, p.batch, p.step) : '#/'}>
            <time>${hour(t.from)}</time>
            <span class="task-words">
              <b>${t.title}</b> <span class="soft">
                step\u00a0${t.number}${t.load ? ', ' + t.load : ''}
              </span>
              <small class="soft">
                ${[t.say, t.on.join(', '), t.who].filter(Boolean).join(' · ')}
              </small>
            </span>
          </a>
        </li>`;
      })}
    </ol>
  `;
}

/**
 * One kind of plate: its build, and a mark for each.
 * @param {{ d: DinnerView, i: number, j: number, p: PlateView }} props
 */
function Plate({ d, i, j, p }) {
  const next = p.keys.find((key) => !tick(key).value);
  return html`<section class="plate" data-plate=${p.card}>
    <h2>
      ${p.name} <small>
        ${count(p.covers, 'cover')}${p.spare ? ', ' + p.spare + ' spare' : ''}
        ${p.for ? ', ' + p.for : ''}
      </small>
    </h2>
    ${p.clashes.map(
      (c) =>
        html`<p class="trouble" data-clash=${clashKind(c)}>
          ${clashTitle(c)}${count(c.covers, 'cover')}
          ${c.notChecked ? '' : html`${c.without}: ${c.via.join(' › ')}`}
        </p>`,
    )}
    ${p.service.map((f) => html`<p><span class="tag">${f.word}</span> ${f.value}</p>`)}
    ${p.picture.source ? html`<img src=${p.picture.source} alt=${p.picture.words} />` : null}
    <ul class="build">
      ${p.build.map(
        (u) =>
          html`<li>
            <b class="amount">${u.amount}</b>
            <span class="name">${u.name}${u.prep ? html`<small>${u.prep}</small>` : ''}</span>
            <${Ready} d=${d} card=${u.card} />
          </li>`,
      )}
    </ul>
    <div class="marks" role="group" aria-label=${'Plates gone: ' + p.name}>
      ${p.keys.map((key, k) => html`<${Mark} key=${key} on=${key} n=${k + 1} name=${p.name} />`)}
    </div>
    ${
      next
        ? html`<button
            type="button"
            class="main wide"
            data-send=${i + 1 + '/' + (j + 1)}
            onClick=${() => emit('tick', next, { done: true })}
          >
            Plate ${p.keys.indexOf(next) + 1} of ${p.covers} gone
          </button>`
        : null
    }
  </section>`;
}

/** Whether a component is made. @param {{ d: DinnerView, card: string }} props */
function Ready({ d, card }) {
  const c = d.cards.find((x) => x.id === card);
  const open = useDerived(
    () =>
      c ? c.batches.reduce((n, m) => n + m.steps.filter((s) => !tick(s.key).value).length, 0) : 0,
    [c],
  );
  if (!c) return null;
  return html`<a
    class=${'ready' + (open.value ? '' : ' is')}
    href=${to.batch(route.value.id, card)}
  >
    ${open.value ? count(open.value, 'step') + ' open' : 'ready'}
  </a>`;
}

/** One plate to tick. @param {{ on: string, n: number, name: string }} props */
function Mark({ on, n, name }) {
  const done = tick(on).value;
  return html`<button
    type="button"
    class=${'mark' + (done ? ' done' : '')}
    aria-pressed=${done}
    aria-label=${'Plate ' + n + ', ' + name}
    data-plate-key=${on}
    onClick=${() => emit('tick', on, done ? {} : { done: true })}
  >
    ${n}
  </button>`;
}
