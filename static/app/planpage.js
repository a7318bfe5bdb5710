// @ts-check
/**
 * The plan's screen: what has moved, what is next, everything by day, and on a wide screen the wall
 * chart of hands and equipment. It prints as the prep list.
 * @module
 */
import { html, useComputed, useDerived } from './html.js';
import { dinner, taken, tick, timers } from './follow.js';
import { minute } from './clock.js';
import {
  at,
  deep,
  late,
  me,
  nowMinute,
  plan,
  planTrouble,
  takePlan,
  todo,
  workDeep,
  working,
} from './plan.js';
import { settings } from './settings.js';
import { route, stepOf, to } from './router.js';
import { Top } from './parts.js';
import { DinnerHead, Opening } from './dinner.js';
import { Strip } from './strip.js';
import { helper } from './sync.js';
import { count, day, hour, span } from './words.js';

/** @typedef {import('./engine.d.ts').TaskView} TaskView */
/** @typedef {import('./engine.d.ts').PlanView} PlanView */
/** @typedef {import('./engine.d.ts').PlanHours} PlanHours */

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

/** @param {{ v: PlanView }} props */
function Whole({ v }) {
  return html`
    ${
      v.past
        ? html`<p class="soft">This dinner is over. The plan is as it would have been.</p>`
        : null
    }
    <${Moves} v=${v} />
    ${v.under ? html`<${Soon} />` : null}
    ${v.cooks.length > 1 ? html`<${Who} cooks=${v.cooks} />` : null}
    <${Wall} v=${v} />
    <div class="prep">${v.hours.map((h) => html`<${Stretch} key=${h.from} v=${v} h=${h} />`)}</div>
    <${Sure} v=${v} />
    <details class="found">
      <summary>What the plan takes for granted</summary>
      <ul class="plain">
        ${v.ways.map((w) => html`<li><b>${w.title}: ${w.way}.</b> ${w.why}.</li>`)}
        ${v.notes.map((n) => html`<li>${n}</li>`)}
        ${v.assumed.map((a) => html`<li>${a}</li>`)}
      </ul>
    </details>
    <p class="tools"><button type="button" id="print" onClick=${() => print()}>Print</button></p>
  `;
}

/**
 * What differs from the plan the cooks go by, and the one touch that takes it.
 * @param {{ v: PlanView }} props
 */
function Moves({ v }) {
  const untaken = v.ways.filter((w) => !w.taken);
  const lateCourses = v.courses.filter((c) => c.late > 0);
  const none = !taken.value;
  if (!none && v.moves.length === 0 && untaken.length === 0 && lateCourses.length === 0)
    return null;
  return html`<section class="moves" id="moves" aria-label="What has moved">
    ${lateCourses.map(
      (c) =>
        html`<p class="late-course" role="alert">
          <b>${c.name} goes out at ${hour(c.wall)}</b>, ${c.late} min late.
        </p>`,
    )}
    ${
      v.moves.length
        ? html`
            <h2>${count(v.moves.length, 'step')} moved</h2>
            <ul class="plain">${v.moves.slice(0, 5).map((m) => html`<li>${m}</li>`)}</ul>
            ${
              v.moves.length > 5
                ? html`<details class="more">
                    <summary>and ${v.moves.length - 5} more</summary>
                    <ul class="plain">${v.moves.slice(5).map((m) => html`<li>${m}</li>`)}</ul>
                  </details>`
                : null
            }
          `
        : null
    }
    ${untaken.map((w) => html`<p>${w.title}: <b>${w.way}</b>. ${w.why}.</p>`)}
    ${
      helper.value
        ? html`<p class="small">The cook’s phone takes the plan for everybody.</p>`
        : none || v.moves.length || untaken.length
          ? html`
              <button type="button" class="main" id="take-plan" onClick=${takePlan}>
                ${none ? 'Go by this plan' : 'Go by the new plan'}
              </button>
              <p class="small">
                ${
                  none
                    ? 'Then every phone keeps to it, and says what moves.'
                    : 'Until then the plan you know stands.'
                }
              </p>
            `
          : null
    }
  </section>`;
}

/** What is now and next, while the kitchen is at it. */
function Soon() {
  const now = nowMinute.value;
  const overdue = late.value;
  const mine = (/** @type {TaskView} */ t) => !me.value || !t.cook || t.cook === me.value;
  const next = todo.value.filter(mine).slice(0, 3);
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

/** One shift of the kitchen's hours. @param {{ v: PlanView, h: PlanHours }} props */
function Stretch({ v, h }) {
  const mine = (/** @type {TaskView} */ t) => !me.value || !t.cook || t.cook === me.value;
  const tasks = v.tasks.filter(
    (t) =>
      mine(t) && ((t.start >= h.from && t.start < h.to) || (t.start === h.to && t.end === h.to)),
  );
  const courses = v.courses.filter((c) => c.at >= h.from && c.at <= h.to);
  if (tasks.length === 0) return null;
  const lines = [
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

/** One task as a line. @param {{ t: TaskView, word: string }} props */
function Line({ t, word }) {
  const p = stepOf(t.key),
    done = tick(t.key).value,
    runs = !!timers.value[t.key];
  const overdue = plan.value?.under && !done && !runs && !t.held && t.latest < nowMinute.value;
  const who = t.cook ? plan.value?.cooks[t.cook - 1] : '';
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
        <b>${t.title}</b> <span class="soft">step ${t.number}${t.load ? ', ' + t.load : ''}</span>
        <small>${t.say}</small>
        <small class="soft">
          ${[word, times, t.on.join(', '), who].filter(Boolean).join(' · ')}
          ${t.overdue ? html` <b class="late">${t.overdue} past its keeping time</b>` : ''}
        </small>
      </span>
    </a>
  </li>`;
}

/** How sure the plan is. @param {{ v: PlanView }} props */
function Sure({ v }) {
  return html`<section class="sure" aria-label="How sure it is">
    ${
      v.chances.length
        ? html`
            <h2>How sure it is</h2>
            <ul class="plain" id="chances">
              ${v.chances.map(
                (c) =>
                  html`<li>
                    ${c.course}: on time in <b>${c.percent}</b> of 100 evenings
                    ${c.late > 1 ? html`, at worst ${c.late} min late in 19 of 20` : ''}
                  </li>`,
              )}
            </ul>
            ${
              v.decide.length
                ? html`
                    <h3>What decides it</h3>
                    <ul class="plain">${v.decide.map((t) => html`<li>${t}</li>`)}</ul>
                  `
                : null
            }
            <p class="small">
              The plan played through 500 times, with steps as quick and as slow as they really may
              be.
            </p>
          `
        : html`<p class="tools">
            <button type="button" id="how-sure" disabled=${working.value} onClick=${workDeep}>
              How sure is it?
            </button>
          </p>`
    }
  </section>`;
}

/** Why there is no plan, and what would free it. @param {{ v: PlanView }} props */
function Blocked({ v }) {
  return html`<section class="blocked" aria-label="What stands in the way">
    <h2>It can’t be done as it stands</h2>
    <ul class="plain" id="because">${v.blocked.map((b) => html`<li class="trouble">${b}</li>`)}</ul>
    ${
      v.changes.length
        ? html`
            <h2>Each of these would free it</h2>
            <ul class="plain" id="changes">
              ${v.changes.map((c) => html`<li><b>${c.text}</b>: ${c.effect}</li>`)}
            </ul>
          `
        : deep.value === route.value.id && !working.value
          ? html`<p>No single change that was tried would free it.</p>`
          : html`<p class="tools">
              <button
                type="button"
                class="main"
                id="what-frees"
                disabled=${working.value}
                onClick=${workDeep}
              >
                ${working.value ? 'Trying …' : 'What would free it?'}
              </button>
            </p>`
    }
  </section>`;
}

/**
 * The wall chart: hands and equipment as rows, time to the right. Only for wide screens.
 * @param {{ v: PlanView }} props
 */
function Wall({ v }) {
  const line = useDerived(() => (v.under ? nowMinute.value : null), [v]);
  return html`<div class="wall" id="wall" aria-hidden="true">
    ${v.hours.map((h) => {
      const inside = v.tasks.filter((t) => t.end > h.from && t.start < h.to);
      if (inside.length === 0) return null;
      const from = Math.min(...inside.map((t) => Math.max(t.start, h.from))),
        until = Math.max(
          ...inside.map((t) => Math.min(Math.max(t.free, t.on.length ? t.end : 0), h.to)),
        );
      // of the serving time, so that the lines fall on full hours
      const past = Math.round(at(0) / 60_000) % 60;
      const first = Math.floor((from - 10 + past) / 60) * 60 - past,
        wide = Math.max(60, until + 10 - first);
      const pos = (/** @type {number} */ m) =>
        ((Math.min(Math.max(m, first), first + wide) - first) / wide) * 100 + '%';
      const bar = (/** @type {TaskView} */ t, /** @type {number} */ s, /** @type {number} */ e) =>
        html`<i
          class=${'block' + (tick(t.key).value ? ' done' : '')}
          style=${{ left: pos(s), width: `calc(${pos(e)} - ${pos(s)})` }}
          title=${hour(t.from) + ' ' + t.title + ', step ' + t.number + ': ' + t.say}
        >
          ${t.title} ${t.number}
        </i>`;
      /** @type {number[]} */
      const hours = [];
      for (let m = first; m < first + wide; m += 60) hours.push(m);
      const row = (
        /** @type {string} */ name,
        /** @type {any[]} */ bars,
        /** @type {string} */ kind,
      ) => html`<div class=${'wall-row ' + kind}>
        <b>${name}</b>
        <div class="lane">
          ${hours.map((m) => html`<i class="hour" style=${{ left: pos(m) }}></i>`)}
          ${bars}
          ${v.courses
            .filter((c) => c.at > first && c.at < first + wide)
            .map((c) => html`<i class="course" style=${{ left: pos(c.at) }}></i>`)}
          ${
            line.value !== null && line.value > first && line.value < first + wide
              ? html`<i class="now" style=${{ left: pos(line.value) }}></i>`
              : null
          }
        </div>
      </div>`;
      return html`<figure class="chart">
        <figcaption>${day(h.wall)}</figcaption>
        <div class="wall-row axis">
          <b></b>
          <div class="lane">
            ${hours.map(
              (m) =>
                html`<span style=${{ left: pos(m) }}>
                  ${new Date(at(m)).toTimeString().slice(0, 5)}
                </span>`,
            )}
          </div>
        </div>
        ${v.cooks.map((c, k) =>
          row(
            c,
            inside
              .filter((t) => t.cook === k + 1 && t.free > t.start)
              .map((t) => bar(t, t.start, t.free)),
            'hands',
          ),
        )}
        ${v.places.map((p) => {
          const on = inside.filter((t) => t.on.includes(p));
          return on.length
            ? row(
                p,
                on.map((t) => bar(t, t.start, t.end)),
                'place',
              )
            : null;
        })}
      </figure>`;
    })}
  </div>`;
}

/**
 * What comes after this step, and what the others do: one line each at the stove.
 * @param {{ but: string }} props
 */
export function Then({ but }) {
  const v = plan.value;
  const lines = useComputed(() => {
    if (!plan.value || plan.value.blocked.length || settings.order.value === 'card') return [];
    const open = todo.value,
      now = nowMinute.value;
    const next = open.find((t) => t.key !== but && (!me.value || !t.cook || t.cook === me.value));
    const out = [];
    if (next) {
      const wait =
        plan.value.under && next.start > now
          ? ', in ' + span((next.start - now) * 60_000)
          : plan.value.under
            ? ''
            : ', ' + hour(next.from);
      out.push('Then: ' + next.title + ', step ' + next.number + wait);
    }
    if (me.value) {
      for (const [i, cook] of plan.value.cooks.entries()) {
        if (i + 1 === me.value) continue;
        const theirs = open.find((t) => t.cook === i + 1);
        if (theirs)
          out.push(
            cook +
              ': ' +
              theirs.title +
              ', step ' +
              theirs.number +
              (theirs.start > now || !plan.value.under ? ', ' + hour(theirs.from) : ''),
          );
      }
    }
    minute.value;
    return out;
  });
  if (!v || lines.value.length === 0) return null;
  return html`<ul class="then" id="then">${lines.value.map((l) => html`<li>${l}</li>`)}</ul>`;
}
