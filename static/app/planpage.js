// @ts-check
/**
 * The plan's screen: what has moved, what is next, everything by day, and on a wide screen the wall
 * chart of hands and equipment. It prints as the prep list.
 * @module
 */
import { html } from './html.js';
import { dinner, tick, timers } from './state.js';
import { isMine, late, me, nowMinute, plan, planTrouble, todo, working } from './plan.js';
import { settings } from './settings.js';
import { route, to } from './router.js';
import { Top, TickRow } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { Strip } from './strip.js';
import { count, day, hour, span } from './words.js';
import { Chosen } from './undone.js';
import { Wall } from './wallchart.js';
import { Moves, Sure, Blocked } from './planstanding.js';

/** @typedef {import('./engine.d.ts').Task} Task */
/** @typedef {import('./engine.d.ts').Schedule} Schedule */
/** @typedef {import('./engine.d.ts').ShiftTime} ShiftTime */

/** The plan's screen. */
export function PlanScreen() {
  const v = plan.value,
    d = dinner.value;
  return html`
    <${Top} at="home" />
    <main
      id="plan"
      data-working=${working.value ? '1' : '0'}
      data-blocked=${v?.blocked.length ? '1' : '0'}
    >
      <${DinnerHead} at="plan" />
      ${planTrouble.value ? html`<p class="trouble" role="alert">${planTrouble.value}</p>` : null}
      ${
        !d
          ? html`<${Opening} />`
          : !v
            ? html`<p class="wait">Working it back from ${hour(d.serve)} …</p>`
            : v.blocked.length
              ? html`<${Blocked} v=${v} />`
              : html`<${Whole} v=${v} />`
      }
    </main>
    <${Strip} />
  `;
}

/** @param {{ v: Schedule }} props */
function Whole({ v }) {
  return html`
    ${
      v.past
        ? html`<p class="soft">This dinner is over. The plan is as it would have been.</p>`
        : null
    }
    <${Chosen} />
    <${Moves} v=${v} />
    ${v.under ? html`<${Soon} />` : null}
    <${Full} v=${v} />
    ${v.cooks.length > 1 ? html`<${Who} cooks=${v.cooks} />` : null}
    <${Wall} v=${v} />
    <div class="prep">${v.hours.map((h) => html`<${Stretch} key=${h.from} v=${v} h=${h} />`)}</div>
    <${Sure} v=${v} />
    <details class="found">
      <summary>Assumptions</summary>
      <ul class="plain">
        ${v.ways.map((w) => html`<li><b>${w.title}: ${w.way}.</b> ${w.why}.</li>`)}
        ${(v.room ?? []).map((n) => html`<li>${n}</li>`)}
        ${v.notes.map((n) => html`<li>${n}</li>`)}
        ${v.assumed.map((a) => html`<li>${a}</li>`)}
      </ul>
    </details>
    <p class="tools"><button type="button" id="print" onClick=${() => print()}>Print</button></p>
  `;
}

/** What is overfull, or too few, and when. @param {{ v: Schedule }} props */
function Full({ v }) {
  if (!v.full?.length) return null; // a kept view may be of an older version
  return html`<section aria-label="Overfull">
    <h2>Overfull</h2>
    <ul class="plain">${v.full.map((n) => html`<li>${n}</li>`)}</ul>
  </section>`;
}

/** What is now and next, while the dinner is under way. */
function Soon() {
  const now = nowMinute.value;
  const overdue = late.value;
  const next = todo.value.filter(isMine).slice(0, 3);
  return html`<section class="soon" aria-label="Now and next">
    ${
      overdue.length
        ? html`<p class="late-course">
            <b>${count(overdue.length, 'step')} late.</b> First: ${overdue[0].title}, step ${overdue[0]
              .number}.
          </p>`
        : null
    }
    <ol class="tasks">
      ${next.map(
        (t) =>
          html`<${Line}
            key=${t.key + t.load}
            t=${t}
            word=${t.start <= now ? 'now' : 'in ' + span((t.start - now) * 60_000)}
          />`,
      )}
    </ol>
  </section>`;
}

/** Whose steps this phone follows. @param {{ cooks: string[] }} props */
function Who({ cooks }) {
  const pick = (/** @type {number} */ n, /** @type {string} */ text) =>
    html`<label>
      <input
        type="radio"
        name="cook"
        data-cook=${n}
        checked=${me.value === n}
        onChange=${() => {
          settings.cook.value = String(n);
        }}
      />
      <span>${text}</span>
    </label>`;
  return html`<fieldset class="ways who">
    <legend>This phone follows</legend>
    ${pick(0, 'everybody')}${cooks.map((c, i) => pick(i + 1, c))}
  </fieldset>`;
}

/** One shift of the kitchen's hours. @param {{ v: Schedule, h: ShiftTime }} props */
function Stretch({ v, h }) {
  const tasks = v.tasks.filter(
    (t) =>
      isMine(t) && ((t.start >= h.from && t.start < h.to) || (t.start === h.to && t.end === h.to)),
  );
  const courses = v.courses.filter((c) => c.at >= h.from && c.at <= h.to);
  if (tasks.length === 0) return null;
  const lines = [
    // a kept view may be of an older version
    ...(v.heats ?? [])
      .filter((x) => x.start >= h.from && x.start < h.to)
      .map((x) => ({
        at: x.start - 0.5,
        el: html`<${TickRow}
          key=${x.key}
          on=${x.key}
          label=${html`<time>${hour(x.from)}</time> ${x.say}`}
        />`,
      })),
    ...tasks.map((t) => ({
      at: t.start,
      el: html`<${Line} key=${t.key + t.load} t=${t} word="" />`,
    })),
    ...courses.map((c) => ({
      at: c.at + 0.5,
      el: html`<li class="goes" key=${c.name}>
        <time>${hour(c.wall)}</time>
        <b>${c.name} goes out</b>
      </li>`,
    })),
  ].sort((a, b) => a.at - b.at);
  return html`<section class="shift">
    <h2>${day(h.wall)} <span class="soft">${hour(h.wall)}–${hour(h.end)}</span></h2>
    <ol class="tasks">${lines.map((l) => l.el)}</ol>
  </section>`;
}

/** One task as a line. @param {{ t: Task, word: string }} props */
function Line({ t, word }) {
  const p = t.at,
    done = tick(t.key).value,
    runs = !!timers.value[t.key];
  const overdue = plan.value?.under && !done && !runs && !t.held && t.latest < nowMinute.value;
  const times = [
    t.free > t.start ? span((t.free - t.start) * 60_000) : '',
    t.end > t.free ? 'then ' + span((t.end - t.free) * 60_000) : '',
  ]
    .filter(Boolean)
    .join(', ');
  return html`<li
    class=${'task' + (done ? ' done' : '') + (overdue ? ' late' : '') + (runs ? ' runs' : '')}
    data-task=${t.key}
  >
    <a href=${p ? to.step(route.value.id, p.card, p.batch, p.step) : '#/'}>
      <time>${hour(t.from)}</time>
      <span class="task-words">
        <b>${t.title}</b> <span class="soft">
          step\u00a0${t.number}${t.load ? ', ' + t.load : ''}
        </span>
        <small>${t.say}</small>
        <small class="soft">
          ${[word, times, t.on.join(', '), t.who].filter(Boolean).join(' · ')}
          ${t.overdue ? html` <b class="late">${t.overdue} past its keeping time</b>` : ''}
        </small>
      </span>
    </a>
  </li>`;
}
